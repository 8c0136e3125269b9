import file from "../../../../pantry/handbook/currencies.json";

/** A currency: its letters, and how many digits of an amount its minor unit has. */
export interface Currency {
  code: string;
  decimals: number;
}

/** Every currency by its number (ISO 4217); the house reads the same table. */
export const CURRENCY_NUMBERS: ReadonlyMap<string, Currency> = new Map(
  Object.entries(file.by_decimals).flatMap(([decimals, words]) =>
    words
      .split(" ")
      .map((word): [string, Currency] => [
        word.slice(3),
        { code: word.slice(0, 3), decimals: Number(decimals) },
      ]),
  ),
);
