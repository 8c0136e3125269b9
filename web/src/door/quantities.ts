/** A decimal as text with its unit, as it goes over the wire. */
export interface Quantity {
  value: string;
  unit: string;
}

/** Whole minor units of a currency. */
export interface Money {
  minor: number;
  currency: string;
}
