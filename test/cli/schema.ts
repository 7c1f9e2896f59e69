import assert from "node:assert/strict";
import Ajv from "ajv/dist/2020";
import schema from "../../src/cli/output.schema.json";

const validate = new Ajv({ strict: true, allErrors: true }).compile(schema);

/** Fails with all that is wrong with a printed text. */
export function assertFollowsSchema(output: string): void {
  validate(JSON.parse(output));
  assert.deepEqual(validate.errors ?? [], []);
}
