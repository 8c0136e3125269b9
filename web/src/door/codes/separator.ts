/** What parts the elements of a GS1 code: FNC1, sent as the character GS (GS1 General Specs, 7.8). */
export const SEPARATOR = "\u001d";
