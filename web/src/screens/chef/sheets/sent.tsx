import { useSignal } from "@preact/signals";
import { ActBar, Button } from "../../../parts/button";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Said } from "../../../parts/said";
import type { SheetLink } from "./link";

/** The link, shown this once, to be passed on as one passes things on; and the sheet on paper. */
export function Sent({ sheet, link }: { sheet: string; link: SheetLink | null }) {
  const copied = useSignal(false);
  const pass = async (address: string) => {
    if (typeof navigator.share === "function") await shared(address);
    else {
      await navigator.clipboard.writeText(address);
      copied.value = true;
    }
  };
  return (
    <>
      <Place title="Ready for the household">
        {link ? (
          <Said kind="done">
            <strong>This link is shown only now.</strong>
            <span class="address">{link.address}</span>
            <span>
              Whoever has it reads these menus and answers them, without a password, until the last
              of them or until you withdraw it.
            </span>
          </Said>
        ) : (
          <Said kind="due">
            <strong>No link was made.</strong>
            <span>This connection is not private. There is the sheet on paper.</span>
          </Said>
        )}
        {copied.value && <Said>The link is copied.</Said>}
        <a class="button" href={`/api/sheets/${sheet}/sheet.pdf`}>
          The sheet on paper
        </a>
        <Link class="touch" to="/sheets">
          What was shown, and what was answered
        </Link>
      </Place>
      {link && (
        <ActBar>
          <Button kind="main" onClick={() => void pass(link.address)}>
            Pass the link on
          </Button>
        </ActBar>
      )}
    </>
  );
}

/** Whoever closes what the phone offers to pass it on with has done nothing wrong. */
async function shared(address: string): Promise<void> {
  try {
    await navigator.share({ title: "Menus", url: address });
  } catch (error) {
    if (!(error instanceof DOMException && error.name === "AbortError")) throw error;
  }
}
