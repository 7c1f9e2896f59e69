export { activate } from "../activate";
