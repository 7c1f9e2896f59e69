import { scan } from "../../src/note/scan";

/** Work that grows with the square of the text, to see that the count of work would show it. */
export function careless(text: string): void {
  for (let i = 0; i < text.length; i += 100) scan(text.slice(i));
}
