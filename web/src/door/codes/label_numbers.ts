const TYPED = /^([0-9]{4,9})-?([0-9])$/;

/** Damm's check digit (H. M. Damm, Total anti-symmetrische Quasigruppen, Marburg 2004). */
const QUASIGROUP = [
  "0317598642",
  "7092154863",
  "4206871359",
  "1750983426",
  "6123045978",
  "3674209581",
  "5869720134",
  "8945362017",
  "9438617205",
  "2581436790",
];

/** A label that was printed with a number, as it is printed; null for what is none, or is misread. */
export function asPrinted(typed: string): string | null {
  const [, number = "", check] = TYPED.exec(typed.trim()) ?? [];
  const fits = number !== "" && checkDigit(number) === check;
  return fits ? `${number}-${check}` : null;
}

function checkDigit(digits: string): string {
  let interim = 0;
  for (const digit of digits) interim = Number(QUASIGROUP[interim]?.[Number(digit)]);
  return String(interim);
}
