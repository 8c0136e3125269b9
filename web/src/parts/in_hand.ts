import { useEffect } from "preact/hooks";
import { inHandOn } from "../door/busy";

/** For as long as a screen stands: something is in hand, and the program does not start again under it. */
export function useInHand(): void {
  useEffect(() => {
    inHandOn.value += 1;
    return () => {
      inHandOn.value -= 1;
    };
  }, []);
}
