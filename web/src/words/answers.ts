/** What the household answered, in words. */
import type { MenuAnswer } from "../door/rows";
import { dishName, sentence } from "./menus";

type Course = MenuAnswer["courses"][number];

/** `Main: Pancakes` for each course, how many they are, and their wish. */
export function answerLines(answer: MenuAnswer): string[] {
  return [
    ...answer.courses.map((course) => `${sentence(course.course)}: ${said(course).join(", ")}`),
    ...(answer.covers === null ? [] : [`They are ${answer.covers}.`]),
    ...(answer.wish === "" ? [] : [`“${answer.wish}”`]),
  ];
}

function said({ dish, any, instead, not_these }: Course): string[] {
  return [
    ...(dish ? [dishName(dish)] : []),
    ...(any ? ["any of them"] : []),
    ...(instead ? [`${dishName(instead)} in its place`] : []),
    ...not_these.map(({ name }) => `not ${name}`),
  ];
}
