import { type Signal, useSignal, useSignalEffect } from "@preact/signals";
import { Fragment } from "preact";
import type { ServingDish, ServingRow } from "../../../door/rows";
import { ActBar, Button } from "../../../parts/button";
import { serviceName } from "../../../parts/day_words";
import type { Doing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { NotFor } from "../../../parts/not_for";
import { Link } from "../../../parts/router";
import { many } from "../../../words/amounts";
import { dishName, sentence } from "../../../words/menus";
import { Stepper } from "../stepper";
import {
  AS_PLANNED,
  bodyOf,
  countOf,
  isReadable,
  keyOf,
  type Otherwise,
  portionsOf,
} from "./exceptions";
import { UnderName } from "./one_service";
import { WhatWasUsed } from "./what_was_used";

interface ToServeProps {
  row: ServingRow;
  zone: string;
  doing: Doing;
}

/** A meal that is to be recorded as served: as it was planned, unless something is said. */
export function ToServe({ row, zone, doing }: ToServeProps) {
  const otherwise = useSignal<Otherwise>(AS_PLANNED);
  const count = countOf(row, otherwise.value);
  const isReady = isReadable(row, otherwise.value);
  const words = serviceName(row.service);
  const serve = async () => {
    const said = count > 0 ? `${words}, ${many(count, "thing")} otherwise` : `${words}, as planned`;
    await doing.act("serve", bodyOf(row, otherwise.value), said);
    scrollTo(0, 0);
  };
  return (
    <>
      <Place title={sentence(serviceName(row.service))} under={<UnderName row={row} zone={zone} />}>
        <Done doing={doing} />
        <section class="stack narrow" aria-label="Portions served">
          <h2>Portions served</h2>
          {row.dishes.map((dish) => (
            <Fragment key={keyOf(dish)}>
              <Portions dish={dish} otherwise={otherwise} />
              {dish.conflicts.map((each) => (
                <NotFor
                  key={each.person + each.cannot_eat}
                  against={each}
                  dish={dishName(dish)}
                  state={row.state}
                  zone={zone}
                />
              ))}
            </Fragment>
          ))}
        </section>
        <WhatWasUsed row={row} otherwise={otherwise} />
        <p>
          <Link class="touch" to="/serving">
            All meals of today
          </Link>
        </p>
      </Place>
      <ActBar>
        <Button kind="main" onClick={() => void serve()} disabled={!isReady || doing.busy.value}>
          {count === 0 ? "Served as planned" : `Served, ${many(count, "thing")} otherwise`}
        </Button>
      </ActBar>
    </>
  );
}

interface PortionsProps {
  dish: ServingDish;
  otherwise: Signal<Otherwise>;
}

function Portions({ dish, otherwise }: PortionsProps) {
  const value = useSignal(portionsOf(dish, otherwise.peek()));
  const typed = value.value;
  useSignalEffect(() => {
    const portions = { ...otherwise.peek().portions, [keyOf(dish)]: value.value };
    otherwise.value = { ...otherwise.peek(), portions };
  });
  return (
    <div class="stack tight">
      <Stepper label={dishName(dish)} value={value} />
      <div class="row">
        {Number(typed) > 0 && (
          <Button
            kind="quiet"
            onClick={() => {
              value.value = "0";
            }}
          >
            Not served<span class="unseen"> {dishName(dish)}</span>
          </Button>
        )}
        {Number(typed) !== dish.portions && (
          <span>
            {Number(typed) === 0 && "not served; "}
            {dish.portions} were planned
          </span>
        )}
      </div>
    </div>
  );
}
