import type { Signal } from "@preact/signals";
import { Choice } from "../../../parts/fields";
import { REASONS } from "./why";

interface WhyAndWhereProps {
  reason: Signal<string>;
  destination: Signal<string>;
  /** Where it may go, the best first. */
  destinations: readonly string[];
  onReason?: () => void;
}

/** Why food is lost and where it goes. */
export function WhyAndWhere({ reason, destination, destinations, onReason }: WhyAndWhereProps) {
  return (
    <>
      <Choice
        legend="Why"
        value={reason}
        options={REASONS.map(asOption)}
        {...(onReason ? { onChange: onReason } : {})}
      />
      <Choice legend="Goes to" value={destination} options={destinations.map(asOption)} />
      <p class="small">
        Local codes come first: what has been in a kitchen may not be fed to farm animals, hens and
        pigs included, where the law forbids it.
      </p>
    </>
  );
}

function asOption(value: string) {
  return { value, label: value };
}
