import { Button } from "./button";
import { type Deed, type Doing, deeds } from "./doing";
import { Said, Wrong } from "./said";

/**
 * What was done last at this place, in words, and the way back: by its own command, for as long as nothing
 * depends on it. Where the house refuses that, its own words say why.
 */
export function Done({ doing }: { doing: Doing }) {
  const last = deeds.value.find(({ place }) => place === doing.place);
  return (
    <>
      {last && <Told deed={last} doing={doing} />}
      {doing.problem.value && <Wrong problem={doing.problem.value} />}
    </>
  );
}

function Told({ deed, doing }: { deed: Deed; doing: Doing }) {
  const undo = async () => {
    await doing.undo(deed);
    // the button that had the focus is gone
    document.getElementById("place")?.focus();
  };
  if (deed.undone) {
    return (
      <Said>
        <strong>Taken back. {deed.words}</strong>
        <Where outcome={deed.undone} />
      </Said>
    );
  }
  if (deed.outcome === "kept") {
    return (
      <Said kind="due">
        <strong>Written down, but not booked. {deed.words}</strong>
        {deed.problem && <span>{deed.problem.detail}</span>}
        <span>It is kept as it came, and a person is asked.</span>
      </Said>
    );
  }
  return (
    <Said kind="done">
      <strong>{deed.words}</strong>
      <Where outcome={deed.outcome} />
      <div>
        <Button onClick={() => void undo()} disabled={doing.busy.value}>
          Undo
        </Button>
      </div>
    </Said>
  );
}

function Where({ outcome }: { outcome: Deed["outcome"] }) {
  return <span>{outcome === "saved" ? "Saved on this phone." : "The house has it."}</span>;
}
