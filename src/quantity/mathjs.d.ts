import "mathjs";

// mathjs exports the factory of its unit class but leaves it out of its types.
declare module "mathjs" {
  export function createUnitClass(scope: object): unknown;
}
