import { now } from "../door/clock";
import { moment } from "../words/time";

/** Over what this device kept, while the house does not answer: when it was said. */
export function AsOf({ at, zone }: { at: string; zone: string }) {
  return (
    <p class="soft small" role="status">
      As of {moment(at, zone, now.value)}, as kept on this device.
    </p>
  );
}
