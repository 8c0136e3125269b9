import { afterEach, describe, expect, it, vi } from "vitest";
import { type Ability, ability, askToLast, workerGiven } from "../src/door/ability";
import { findings, verdict } from "../src/words/ability";

const ALL: Ability = {
  encrypted: true,
  camera: true,
  worker: "standing",
  lasting: true,
  locks: true,
};

function workers(how: { active?: boolean; fails?: Error }) {
  const left: string[] = [];
  return {
    left,
    getRegistration: async () => (how.active === undefined ? undefined : { active: how.active }),
    register: async (_script: string, { scope }: { scope: string }) => {
      if (how.fails) throw how.fails;
      left.push(scope);
      return { unregister: async () => left.splice(left.indexOf(scope), 1).length === 1 };
    },
  } as unknown as ServiceWorkerContainer & { left: string[] };
}

describe("SY12: whether a worker is given is tried, and nothing is left behind", () => {
  it("stands where one stands", async () => {
    const standing = workers({ active: true, fails: new TypeError("nobody asks") });
    expect(await workerGiven(standing)).toBe("standing");
  });
  it("is possible where the trial succeeds, which is taken away again", async () => {
    const fresh = workers({});
    expect(await workerGiven(fresh)).toBe("possible");
    expect(fresh.left).toEqual([]);
  });
  it("is absent without an encrypted address", async () => {
    expect(await workerGiven(undefined)).toBe("absent");
  });
  it("is untrusted where somebody has clicked past the warning", async () => {
    const fails = new DOMException("An SSL certificate error occurred", "SecurityError");
    expect(await workerGiven(workers({ fails }))).toBe("untrusted");
  });
  it("has failed where the house is silent", async () => {
    expect(await workerGiven(workers({ fails: new TypeError("Failed to fetch") }))).toBe("failed");
  });
});

describe("SY12: what a browser gives at an address that is not encrypted", () => {
  afterEach(() => vi.unstubAllGlobals());
  it("is looked at without stumbling over what is not there", async () => {
    vi.stubGlobal("window", { isSecureContext: false });
    vi.stubGlobal("navigator", {});
    const nothing = { encrypted: false, camera: false, worker: "absent", lasting: false };
    expect(await ability()).toEqual({ ...nothing, locks: false });
    expect(await askToLast()).toBe(false);
  });
});

describe("SY12: what is missing is said plainly, each with what to do", () => {
  it("says nothing to do where all is good", () => {
    expect(findings(ALL).every((each) => each.state === "good" && !each.todo)).toBe(true);
    expect(verdict(ALL).good).toBe(true);
  });
  it("says what to do about everything that is not", () => {
    const nothing: Ability = {
      encrypted: false,
      camera: false,
      worker: "absent",
      lasting: false,
      locks: false,
    };
    expect(findings(nothing).every((each) => each.state !== "good" && each.todo)).toBe(true);
    expect(verdict(nothing).says).toContain("neither");
  });
  it.each(["absent", "untrusted", "failed"] as const)(
    "is not good with a camera alone (%s)",
    (worker) => {
      const told = verdict({ ...ALL, worker });
      expect(told.good).toBe(false);
      expect(told.says).toContain("will not work without signal");
    },
  );
  it("is good as soon as a worker is possible", () => {
    expect(verdict({ ...ALL, worker: "possible" })).toEqual(verdict(ALL));
  });
  it("works without a promise of the browser's, and says that it could be better", () => {
    expect(verdict({ ...ALL, lasting: false }).good).toBe(true);
    expect(findings({ ...ALL, lasting: false })[3]?.state).toBe("weak");
  });
});
