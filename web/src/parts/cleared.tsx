import { unkept } from "../door/copy";
import { cleared } from "../door/session";
import { Button } from "./button";

/** That the browser has thrown away what this device kept, or keeps nothing at all. */
export function Cleared() {
  if (unkept.value !== null) {
    return (
      <div class="said due" role="status">
        <strong>This browser keeps nothing here: {unkept.value}</strong>
        <span>
          Without signal there is nothing to work from. A private window never keeps anything; a
          full phone needs room.
        </span>
      </div>
    );
  }
  if (!cleared.value) return null;
  return (
    <div class="said due" role="status">
      <strong>The browser has cleared what this device kept.</strong>
      <span>
        What the house says is fetched again now. What had not been sent is gone: record it again.
      </span>
      <div>
        <Button
          onClick={() => {
            cleared.value = false;
          }}
        >
          I have read this
        </Button>
      </div>
    </div>
  );
}
