import type { ComponentChildren } from "preact";
import { useReport } from "../../door/reports";
import type { HouseRow } from "../../door/rows";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Shown } from "../../parts/shown";
import { FirstAreas, FirstDish, FirstItem, FirstTable } from "./first_forms";

/** An empty house, led in a few steps to its first delivery and its first menu. */
export function FirstSteps() {
  const report = useReport<HouseRow>("house");
  return (
    <Place title="First steps" under="From an empty house to the first delivery and the first menu">
      <Shown report={report} what="Looking at the house">
        {([house]) => house && <Steps house={house} />}
      </Shown>
    </Place>
  );
}

function Steps({ house }: { house: HouseRow }) {
  const { has } = house;
  return (
    <div class="stack narrow">
      <p>
        Have you sheets already? <Link to="/book">Bring in a house book</Link> and all of this is
        done at once. Otherwise begin small: what is chilled and frozen first, the rest when it
        comes.
      </p>
      <ol class="stack">
        <Step number={1} title="Where things are kept" done={house.areas.length > 0}>
          <FirstAreas />
        </Step>
        <Step number={2} title="The first thing you keep" done={has.items > 0}>
          <FirstItem areas={house.areas} />
        </Step>
        <Step number={3} title="The first delivery" done={has.batches > 0} ready={has.items > 0}>
          <p>
            At the door, with what is in your hand: <Link to="/goods-in">Goods in</Link>. Three
            letters find the thing you wrote down.
          </p>
        </Step>
        <Step number={4} title="Who eats together" done={house.tables.length > 0}>
          <FirstTable />
        </Step>
        <Step number={5} title="The first dish" done={has.recipes > 0} ready={has.items > 0}>
          <FirstDish />
        </Step>
        <Step
          number={6}
          title="The first menu"
          done={has.services > 0}
          ready={has.recipes > 0 && house.tables.length > 0}
        >
          <p>
            Propose a meal and confirm it: <Link to="/menus">Menus</Link>. From then on the stock
            room knows it.
          </p>
        </Step>
      </ol>
    </div>
  );
}

interface StepProps {
  number: number;
  title: string;
  done: boolean;
  ready?: boolean;
  children: ComponentChildren;
}

function Step({ number, title, done, ready = true, children }: StepProps) {
  return (
    <li class="card stack">
      <div class="row ends base">
        <h2>
          {number}. {title}
        </h2>
        <span class={`state ${done ? "done" : ""}`}>{done ? "done" : ready ? "" : "later"}</span>
      </div>
      {!done && ready && children}
    </li>
  );
}
