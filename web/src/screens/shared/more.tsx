import { signOut } from "../../door/session";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";

/** The other rooms of the house, and the way out. */
export function Doors() {
  return (
    <Place title="More">
      <Button onClick={() => void signOut()}>Sign out</Button>
    </Place>
  );
}
