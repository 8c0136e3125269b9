import { computed, signal } from "@preact/signals";
import { waiting, waitingSince } from "./line";

/** How many screens say of themselves that something is in hand there. */
export const inHandOn = signal(0);

type Filled = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

const touched = new Set<Filled>();
const filled = signal(false);

function isFilled(field: Filled): boolean {
  if (!field.isConnected) return false;
  return field instanceof HTMLInputElement && (field.type === "radio" || field.type === "checkbox")
    ? true
    : field.value !== "";
}

/** Look again whether something that a person has filled in still stands on the screen. */
export function lookAtFields(): void {
  for (const field of touched) if (!isFilled(field)) touched.delete(field);
  filled.value = touched.size > 0;
}

/** Notice from now on what a person fills in, on whatever screen. */
export function watchFields(): void {
  document.addEventListener("input", ({ target }) => {
    if (
      target instanceof HTMLInputElement ||
      target instanceof HTMLTextAreaElement ||
      target instanceof HTMLSelectElement
    )
      touched.add(target);
    lookAtFields();
  });
}

/** A command on its way from a desk; what is saved on a device outlives a start of the program. */
const onItsWay = computed(() => waiting.value > 0 && waitingSince.value === null);

/** Whether something is being filled in or recorded here, so that the program must not start again under it. */
export const busy = computed(() => onItsWay.value || inHandOn.value > 0 || filled.value);
