import { Refused } from "../problem";

/** A code that cannot be read: the same problem that the house would answer with. */
export function unreadable(code: string, detail: string, todo: string, value = ""): Refused {
  return new Refused({
    type: `urn:chooseby:refusal:${code}`,
    title: code.replaceAll("_", " "),
    status: 422,
    detail,
    code,
    todo,
    value,
    field: "",
    faults: [],
  });
}

export const SCAN_AGAIN = "Scan it again; if that fails too, enter what is printed on the pack.";
export const READ_THE_PACK = "Read the date printed on the pack and enter it by hand.";

/** A text that is no code, said of the text itself or of `what`. */
export function notACode(value: string, what = ""): Refused {
  return unreadable(
    "not_a_code",
    `${what || value} is no code that can be read.`,
    SCAN_AGAIN,
    value,
  );
}
