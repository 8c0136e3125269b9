import type { Wire } from "./wire";

/** A decimal as text with its unit: the item's own as the house tells it, any that a person gives. */
export type Quantity = Wire["Quantity"] | Wire["QuantityPart"];

/** Whole minor units of a currency. */
export type Money = Wire["Money"];
