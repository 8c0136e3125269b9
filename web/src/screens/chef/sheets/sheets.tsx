import { below } from "../../../parts/router";
import { SendSheet } from "./send";
import { SheetList } from "./sheet_list";

/** What is shown to the household: what was sent, and sending. */
export function Sheets() {
  const [first] = below("/sheets");
  return first === "new" ? <SendSheet /> : <SheetList />;
}
