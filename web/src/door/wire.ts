import type { components } from "./api";

/** Everything that goes over the wire, by name, as the house itself describes it. */
export type Wire = components["schemas"];
