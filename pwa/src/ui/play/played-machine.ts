// The studio machine while a recorded day is played: it tells what it is asked, and does nothing.
import { Refusal, type Machine } from "../studio/machine";

const SAY = "A recorded day is being played: nothing is done in earnest. Leave it to work.";

export function playedMachine(real: Machine): Machine {
  const refuse = () => Promise.reject(new Refusal(SAY));
  return {
    place: () => real.place(),
    devices: () => real.devices(),
    newCode: refuse,
    revoke: refuse,
    importFile: refuse,
    removeSample: refuse,
  };
}
