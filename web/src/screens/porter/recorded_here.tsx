import { useReport } from "../../door/reports";
import type { StockRow } from "../../door/rows";
import { Link } from "../../parts/router";
import { Said } from "../../parts/said";
import { PUT_AWAY } from "./keys";
import { type Recorded, recorded, struck } from "./recorded";
import { Told } from "./told";

/** The line that was recorded last of an order, or without one, right under the thumb; or what was taken back. */
export function JustRecorded({ order }: { order: string | null }) {
  const [last] = recorded.value.filter((one) => one.order === order);
  return (
    <>
      {struck.value && <Said>{struck.value}</Said>}
      {last && <Ones ones={[last]} />}
    </>
  );
}

/** What was recorded before it. */
export function RecordedBefore({ order }: { order: string | null }) {
  const [, ...before] = recorded.value.filter((one) => one.order === order);
  if (before.length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby="recorded">
      <h2 id="recorded">Recorded before</h2>
      <Ones ones={before} />
    </section>
  );
}

/** The way to what was taken in and stands at the door. */
export function ToPutAway() {
  if (!recorded.value.some(({ verdict }) => verdict !== "refuse")) return null;
  return (
    <p>
      <Link class="touch" to={`/goods-in/${PUT_AWAY}`}>
        Put away what came, in safe order
      </Link>
    </p>
  );
}

/** The stock is asked only where there is a label to be told. */
function Ones({ ones }: { ones: Recorded[] }) {
  const stock = useReport<StockRow>("stock").said.value?.rows ?? [];
  return (
    <>
      {ones.map((one) => (
        <Told key={one.command} one={one} batch={stock.find(({ batch }) => batch === one.batch)} />
      ))}
    </>
  );
}
