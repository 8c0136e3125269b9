import { computed, effect } from "@preact/signals";
import { render } from "preact";
import "./look/look.css";
import "./look/porter.css";
import "./look/chef.css";
import { watchFields } from "./door/busy";
import { bringGiving } from "./door/command";
import { keepWhole } from "./door/lacking";
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

keepWhole();
keepNeeded();
watchFields();
keepTheProgram();

/** How long until the house is asked again who is signed in, in milliseconds. */
const PAUSE = 3_000;

let isSending = false;

/** Hand in what waits, whatever screen is open; where that did not come, the page starts anew. */
async function keepSending(): Promise<void> {
  if (isSending) return;
  isSending = true;
  const sending = await import("./door/outbox/sending").catch(() => null);
  sending?.keepSending();
}

effect(() => {
  if (!me.value?.device) return;
  void keepSending();
  // before there is anything to save; where it did not come, giving says so
  bringGiving().catch(() => undefined);
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
