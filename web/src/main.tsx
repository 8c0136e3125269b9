import { computed, effect } from "@preact/signals";
import { render } from "preact";
import "./look/look.css";
import "./look/porter.css";
import "./look/chef.css";
import { watchFields } from "./door/busy";
import { keepNeeded } from "./door/needed";
import { listen, stopListening } from "./door/news";
import { keepTheProgram } from "./door/program";
import { forget } from "./door/reports";
import { me, recognise } from "./door/session";
import { House } from "./screens/house";

const somebody = computed(() => me.value?.person.id);

effect(() => {
  // whoever takes the phone over is told nothing that was said to the one before
  forget();
  if (somebody.value) listen();
  else stopListening();
});

keepNeeded();
watchFields();
keepTheProgram();

/** How long until what did not come is asked for again, in milliseconds. */
const PAUSE = 3_000;

let isSending = false;

/** Hand in what waits, whatever screen is open. */
async function keepSending(): Promise<void> {
  if (isSending) return;
  isSending = true;
  try {
    (await import("./door/outbox/sending")).keepSending();
  } catch {
    // it is not on this device yet, and the house went silent before it came
    isSending = false;
    setTimeout(() => void keepSending(), PAUSE);
  }
}

effect(() => {
  if (me.value?.device) void keepSending();
});
// a phone on which nobody is in, or which was taken out of the house, hands in what it holds
setTimeout(() => void keepSending(), 1_000);

const root = document.getElementById("house");
if (root) render(<House />, root);

/** Ask who is signed in until the house answers at all. */
async function begin(): Promise<void> {
  try {
    await recognise();
  } catch {
    setTimeout(() => void begin(), PAUSE);
  }
}

void begin();
