import "../../../look/labels.css";
import { below } from "../../../parts/router";
import { HeardWord } from "../heard";
import { Numbers } from "./numbers";
import { Print } from "./print";
import { PutOn } from "./put_on";

/** Labels: printing them, printing numbers beforehand, putting a numbered one on a batch. */
export function Labels() {
  const [first] = below("/labels");
  return (
    <>
      <HeardWord />
      {first === "put-on" && <PutOn />}
      {first === "numbers" && <Numbers />}
      {first !== "put-on" && first !== "numbers" && <Print key={first} label={first} />}
    </>
  );
}
