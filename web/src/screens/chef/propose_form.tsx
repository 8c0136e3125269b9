import "../../look/menus.css";
import { useComputed, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { isGiven } from "../../door/command";
import type { DishRow, HouseRow, MenuRow } from "../../door/rows";
import { ActBar, Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { useGiving } from "../../parts/giving";
import { go, Link } from "../../parts/router";
import { Said, Wrong } from "../../parts/said";
import { STATES } from "../../words/menus";
import { clock } from "../../words/time";
import { beginsOf, useSaidOf, useSaidOn } from "./begins";
import { CourseDraft } from "./course_draft";
import { CoversBegun } from "./covers_begun";
import { useDishesFor } from "./dishes_for";
import {
  again,
  courseNames,
  type Draft,
  type DraftCourse,
  empty,
  like,
  MEALS,
  proposal,
  standsAt,
} from "./draft";
import { daysAhead, firstFree } from "./draft_days";
import { MoreCourses } from "./more_courses";
import { Moved } from "./moved";
import { isWhole } from "./stepper";
import { OTHER, When } from "./when";

interface ProposeFormProps {
  house: HouseRow;
  menus: MenuRow[];
  zone: string;
  dishes: DishRow[];
  first: DishRow | null;
  of: MenuRow | null;
}

export function ProposeForm({ house, menus, zone, dishes, first, of }: ProposeFormProps) {
  const meals = [...new Set([...menus.map((row) => row.meal), ...MEALS])];
  const begin = of ? null : like(menus, "dinner", house.tables[0]?.table ?? "");
  const date = useSignal(of?.date ?? firstFree(menus, begin, zone));
  const meal = useSignal(of?.meal ?? begin?.meal ?? "dinner");
  const otherMeal = useSignal("");
  const table = useSignal(of?.table ?? house.tables[0]?.table ?? "");
  const time = useSignal(of ? clock(of.at, zone) : begin ? clock(begin.at, zone) : "19:30");
  const covers = useSignal(String(of?.covers ?? house.tables[0]?.usual_covers ?? 1));
  const courses = useSignal<DraftCourse[]>(
    of && of.courses.length > 0
      ? again(of)
      : empty(begin ? begin.courses.map(({ course }) => course) : ["starter", "main", "pudding"]),
  );
  const seen = useSignal<MenuRow | null>(of);
  const { busy, answer, decide } = useGiving();
  const draft = useComputed<Draft>(() => ({
    date: date.value,
    meal: meal.value === OTHER ? otherMeal.value.trim() : meal.value,
    table: table.value,
    time: time.value,
    covers: covers.value,
    courses: courses.value,
  }));
  const isOther = meal.value === OTHER;
  const told = useSaidOn(date.value, 1, meals);
  const ofOther = useSaidOf(draft.value, isOther);
  const rows = isOther ? ofOther : told;
  const begins = rows && beginsOf(rows, house, draft.value);
  const follows = useSignal(of === null);
  useEffect(() => {
    if (follows.value && begins) covers.value = begins.covers;
  }, [begins?.covers, follows.value]);
  // not for the usual number first, where another is said a moment later
  const number = follows.value ? (begins?.covers ?? "") : covers.value;
  const said = useDishesFor({ ...draft.value, covers: number });
  const stands = standsAt(menus, draft.value);
  const hasMoved = answer.value?.outcome === "conflict" && seen.value !== null && stands;
  const isSettled = stands?.state === "confirmed" || stands?.state === "served";
  const someEat = isWhole(covers.value) && Number(covers.value) > 0;
  const hasDish = courses.value.some((course) => course.dishes.length > 0);
  const isReady = draft.value.meal !== "" && someEat && hasDish;
  /** Another meal or table brings its own usual hour, and courses where nothing is written yet. */
  const follow = () => {
    const usual = like(menus, meal.value, table.value);
    if (usual) time.value = clock(usual.at, zone);
    if (usual && courses.value.every((course) => course.dishes.length === 0)) {
      courses.value = empty(usual.courses.map(({ course }) => course));
    }
  };
  const propose = async () => {
    seen.value = stands ?? null;
    const given = await decide("propose", proposal(draft.value, house), stands?.version);
    if (given.outcome === "conflict") scrollTo(0, 0);
  };
  // it is shown once the menus have it as it is now, not as it was
  const written =
    answer.value !== null && isGiven(answer.value) && stands?.version !== seen.value?.version;
  const service = written ? stands?.service : undefined;
  useEffect(() => {
    if (service) go(`/menus/${service}`);
  }, [service]);
  return (
    <>
      <Place title={of ? "Change what is proposed" : "Propose a menu"}>
        {hasMoved && seen.value && (
          <Moved
            seen={seen.value}
            stands={stands}
            onLook={() => {
              courses.value = again(stands);
              covers.value = String(stands.covers);
              follows.value = false;
              answer.value = null;
            }}
          />
        )}
        <div class="columns">
          <When
            {...{ house, meals, date, meal, otherMeal, table, time }}
            days={daysAhead(zone)}
            onUsual={follow}
            onTable={() => {
              follows.value = true;
              follow();
            }}
          >
            <CoversBegun
              {...{ covers, begins, zone }}
              follows={follows.value}
              onFollow={(next) => {
                follows.value = next;
              }}
            />
          </When>
          <div class="stack">
            {courses.value.map((course, place) => (
              <CourseDraft
                key={course.course}
                course={course}
                dishes={dishes}
                first={first}
                table={table.value}
                date={date.value}
                zone={zone}
                said={said.rows.value}
                onChange={(next) => {
                  courses.value = next
                    ? courses.value.map((each, at) => (at === place ? next : each))
                    : courses.value.filter((_, at) => at !== place);
                }}
              />
            ))}
            <MoreCourses
              names={courseNames(menus).filter(
                (name) => !courses.value.some(({ course }) => course === name),
              )}
              onAdd={(course) => {
                courses.value = [...courses.value, { course, dishes: [] }];
              }}
            />
          </div>
        </div>
        {stands && !of && (
          <Said kind="due">
            <span>
              A menu stands there already: {STATES[stands.state]}.{" "}
              {isSettled
                ? "It cannot be proposed anew; change it, or take it off first."
                : "Proposing takes its place."}
            </span>
          </Said>
        )}
        {answer.value !== null && isGiven(answer.value) && (
          <Said kind="done">
            <strong>Proposed.</strong>
            <Link class="touch" to="/menus">
              All menus
            </Link>
          </Said>
        )}
      </Place>
      <ActBar>
        <div class="changes">
          {answer.value?.problem && !hasMoved && <Wrong problem={answer.value.problem} />}
          <Button
            kind="main"
            disabled={
              busy.value ||
              !isReady ||
              isSettled ||
              (answer.value !== null && isGiven(answer.value))
            }
            onClick={() => void propose()}
          >
            {isReady
              ? "Propose"
              : someEat
                ? "Propose: at least one dish first"
                : "Propose: for how many?"}
          </Button>
        </div>
      </ActBar>
    </>
  );
}
