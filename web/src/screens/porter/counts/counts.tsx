import "../../../look/counts.css";
import { later } from "../../../parts/later";
import { below } from "../../../parts/router";
import { HeardWord } from "../heard";
import { Areas } from "./areas";

const OneArea = later(() => import("./one_area").then((room) => room.OneArea));

/** Counting: every storage area, then one of them line by line. */
export function Counts() {
  const [area, step, key] = below("/counts");
  return (
    <>
      <HeardWord />
      {area ? <OneArea key={area} area={area} step={step} of={key} /> : <Areas />}
    </>
  );
}
