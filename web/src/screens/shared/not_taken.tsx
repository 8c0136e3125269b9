import { useSignal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { inTheHouse, now } from "../../door/clock";
import { picturesRefused } from "../../door/line";
import { allNotTaken, putAway, sendAgain } from "../../door/photos/not_taken";
import { me } from "../../door/session";
import type { Picture } from "../../door/store";
import { Button } from "../../parts/button";
import { Said } from "../../parts/said";
import { moment } from "../../words/time";

/** The pictures that the house did not take: what they show, why, and what to do. */
export function NotTaken() {
  const pictures = useSignal<Picture[]>([]);
  useEffect(() => {
    const look = async () => {
      pictures.value = await allNotTaken();
    };
    void look();
  }, [picturesRefused.value]);
  if (pictures.value.length === 0) return null;
  return (
    <section class="stack" aria-label="Pictures that were not taken">
      <h2>Pictures that were not taken</h2>
      {pictures.value.map((picture) => (
        <One key={picture.id} picture={picture} />
      ))}
    </section>
  );
}

function One({ picture }: { picture: Picture }) {
  const { bytes, refused, takenAt } = picture;
  const address = useMemo(() => URL.createObjectURL(bytes), [bytes]);
  useEffect(() => () => URL.revokeObjectURL(address), [address]);
  const when = moment(inTheHouse(takenAt), me.value?.house.zone ?? "UTC", now.value);
  return (
    <Said kind="due">
      <strong>{refused?.detail}</strong>
      <span>{refused?.todo}</span>
      <div class="pictures">
        <img src={address} alt={`Taken ${when}`} />
      </div>
      <span>Taken {when}. What was recorded with it stands.</span>
      <div class="row">
        <Button onClick={() => void sendAgain(picture)}>Try again</Button>
        <Button onClick={() => void putAway(picture)}>Put away</Button>
      </div>
    </Said>
  );
}
