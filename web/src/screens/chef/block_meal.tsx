import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { now } from "../../door/clock";
import type { Answer } from "../../door/command";
import type { DishRow, MenuRow, ServedRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { Wrong } from "../../parts/said";
import { few, many } from "../../words/amounts";
import { dishName, serviceTitle } from "../../words/menus";
import { type Begins, besideNumber } from "./begins";
import { coursesBefore, dishesIn } from "./block";
import { CourseDraft } from "./course_draft";
import { CoversBegun } from "./covers_begun";
import { useDishesFor } from "./dishes_for";
import { courseNames, type Draft } from "./draft";
import { MoreCourses } from "./more_courses";

interface BlockMealProps {
  draft: Draft;
  begins: Begins;
  dishes: DishRow[];
  menus: MenuRow[];
  served: ServedRow[];
  zone: string;
  answer: Answer | undefined;
  isOpen: boolean;
  onOpen: (open: boolean) => void;
  onChange: (draft: Draft) => void;
}

/** One meal of a block: what is on it so far, and all of it once it is opened. */
export function BlockMeal(props: BlockMealProps) {
  const { draft, begins, menus, served, zone, answer, isOpen, onOpen, onChange } = props;
  const before = coursesBefore(draft, menus, served);
  const names = before.flatMap(({ dishes }) => dishes.map(dishName));
  const title = serviceTitle(draft.meal, draft.table);
  const soFar = draft.courses.map(courseSaid).filter(Boolean).join("; ");
  return (
    <li class="block-meal stack tight">
      <button type="button" class="whole" aria-expanded={isOpen} onClick={() => onOpen(!isOpen)}>
        <span class="stack tight">
          <span>
            <strong>{title}</strong>{" "}
            <span class="soft">
              {draft.time}, {many(Number(draft.covers), "cover")} (
              {besideNumber(draft.covers, begins, zone, now.value)})
            </span>
          </span>
          <span>{soFar || "nothing yet"}</span>
        </span>
      </button>
      {answer?.problem && <Wrong problem={answer.problem} />}
      {dishesIn(draft) === 0 && names.length > 0 && (
        <Button onClick={() => onChange({ ...draft, courses: before })}>
          As a week before: {few(names)}
          <span class="unseen">, for {title}</span>
        </Button>
      )}
      {isOpen && <Opened {...props} />}
    </li>
  );
}

function courseSaid({ course, dishes }: Draft["courses"][number]): string {
  return dishes.length > 0 ? `${course}: ${dishes.map(dishName).join(" or ")}` : "";
}

function Opened({ draft, begins, dishes, menus, zone, onChange }: BlockMealProps) {
  const covers = useSignal(draft.covers);
  const time = useSignal(draft.time);
  const said = useDishesFor({ ...draft, covers: covers.value, time: time.value });
  const { courses } = draft;
  const set = (next: Draft["courses"]) => onChange({ ...draft, courses: next });
  const follows = draft.follows ?? false;
  useEffect(() => {
    if (follows) covers.value = draft.covers;
  }, [draft.covers, follows]);
  useEffect(() => {
    if (time.value !== draft.time) onChange({ ...draft, time: time.value });
  }, [time.value]);
  return (
    <div class="stack">
      <div class="columns">
        <CoversBegun
          {...{ covers, follows, begins, zone }}
          onFollow={(next) => onChange({ ...draft, covers: covers.value, follows: next })}
        />
        <Field label="Time" value={time} hint="24-hour, such as 19:30." />
      </div>
      <div class="columns">
        {courses.map((course, place) => (
          <CourseDraft
            key={course.course}
            course={course}
            dishes={dishes}
            first={null}
            table={draft.table}
            date={draft.date}
            zone={zone}
            said={said.rows.value}
            onChange={(next) =>
              set(
                next
                  ? courses.map((each, at) => (at === place ? next : each))
                  : courses.filter((_, at) => at !== place),
              )
            }
          />
        ))}
      </div>
      <MoreCourses
        names={courseNames(menus).filter((name) => !courses.some(({ course }) => course === name))}
        onAdd={(course) => set([...courses, { course, dishes: [] }])}
      />
    </div>
  );
}
