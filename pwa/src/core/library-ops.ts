// The operations of the library of reckonings, typed. Their other half is the Go package pwa/core/desk.
import type { Problem, Reckoning, Result } from "./api";
import { textOf, type CoreInstance } from "./wasm";

export function list(c: CoreInstance): Reckoning[] {
  return JSON.parse(textOf(c.call("list").payload)) as Reckoning[];
}

export function run(c: CoreInstance, name: string, inputs: object): Result | { problems: Problem[] } {
  return JSON.parse(textOf(c.call("run", { name }, JSON.stringify(inputs)).payload)) as
    Result | { problems: Problem[] };
}
