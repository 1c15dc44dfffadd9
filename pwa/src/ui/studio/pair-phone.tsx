// Bringing in a phone: first it learns to trust this studio's own certificate, then it is paired
// with a code that works once and runs out.
import { useEffect, useState } from "preact/hooks";
import { deviceNow } from "../base/core";
import { clockText } from "../base/words";
import { Alert, Fault } from "../parts/field";
import { Icon } from "../parts/icon";
import { refusalSays, useMachine, type PairCode, type Place } from "./machine";
import { Qr } from "./qr";

export function PairPhone() {
  const machine = useMachine();
  const [place, setPlace] = useState<Place | null>(null);
  const [say, setSay] = useState("");
  const begin = () => {
    machine.place().then(
      (p) => {
        setPlace(p);
        setSay("");
      },
      (e: unknown) => setSay(refusalSays(e)),
    );
  };
  return (
    <section class="part" aria-labelledby="pair" data-test="pair-phone">
      <h2 id="pair">Pair a phone</h2>
      {!place && (
        <button type="button" class="key strong" data-test="pair-start" onClick={begin}>
          <Icon is="phone" />
          Show the steps
        </button>
      )}
      <Alert say={say} />
      {place?.trust_url && <Trust place={place} />}
      {place && <Code step={place.trust_url ? "2. " : ""} />}
    </section>
  );
}

function Trust({ place }: { place: Place }) {
  return (
    <div class="step-block">
      {place.problem && (
        <p class="fault">
          <Fault say={place.problem} />
        </p>
      )}
      <h3>1. Let the phone trust this studio</h3>
      <p>Once for each phone, in this network: open this address in its browser and follow the steps there.</p>
      <Qr svg={place.trust_qr_svg} label="The address of the steps, to be scanned" />
      <p class="address" data-test="trust-url">
        {place.trust_url}
      </p>
      <p>The phone shows a fingerprint before it trusts. It must be this one, figure by figure:</p>
      <p class="hash" data-test="fingerprint">
        {place.fingerprint}
      </p>
      {place.fallback && (
        <details class="fold">
          <summary>If the phone does not find that address</summary>
          <p>{place.fallback.say}</p>
          <p class="address">{place.fallback.trust_url}</p>
          <p class="address">{place.fallback.tls_url}</p>
        </details>
      )}
    </div>
  );
}

function Code({ step }: { step: string }) {
  const machine = useMachine();
  const [code, setCode] = useState<PairCode | null>(null);
  const [say, setSay] = useState("");
  const fetchCode = () => {
    machine.newCode().then(
      (c) => {
        setCode(c);
        setSay("");
      },
      (e: unknown) => setSay(refusalSays(e)),
    );
  };
  const left = code ? code.expires_ms - deviceNow.value : 0;
  const over = code !== null && left <= 0;
  // A code that has run out is not left standing on a screen.
  useEffect(() => {
    if (over) setCode(null);
    if (over) setSay("That code has run out unused.");
  }, [over]);
  return (
    <div class="step-block">
      <h3>{step}Pair it</h3>
      <p>On an iPhone or iPad install the app first, open it from the home screen, and type the code there.</p>
      <Alert say={say} />
      {code && !over && (
        <div class="code-block">
          <Qr svg={code.qr_svg} label="The pairing link, to be scanned" />
          <div>
            <p class="code" data-test="pair-code">
              {code.code}
            </p>
            <p class="address">{code.url}</p>
            <p>
              Works once, for one phone, for another <b data-test="pair-left">{clockText(0, Math.ceil(left / 1000))}</b>
              .
            </p>
          </div>
        </div>
      )}
      <button type="button" class={code ? "key" : "key strong"} data-test="pair-new" onClick={fetchCode}>
        <Icon is="link" />
        {code ? "Make another code" : "Make a code"}
      </button>
    </div>
  );
}
