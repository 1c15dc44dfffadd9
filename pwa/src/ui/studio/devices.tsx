// The devices that are paired, and shutting one out.
import { useCallback, useEffect, useState } from "preact/hooks";
import { useCore } from "../base/core";
import { useMinute } from "../base/ticking";
import { count, when } from "../base/words";
import { Alert } from "../parts/field";
import { Icon } from "../parts/icon";
import { stillIn } from "./kin";
import { refusalSays, useMachine, type Device } from "./machine";

export function Devices() {
  const machine = useMachine();
  const status = useCore().status.value;
  const [list, setList] = useState<readonly Device[]>([]);
  const [say, setSay] = useState("");
  const load = useCallback(() => {
    machine.devices().then(
      (d) => {
        setList(d);
        setSay("");
      },
      (e: unknown) => setSay(refusalSays(e)),
    );
  }, [machine]);
  useEffect(load, [load, status.link, status.paired]);
  return (
    <section class="part" aria-labelledby="devices">
      <div class="row">
        <h2 id="devices">Devices</h2>
        <button type="button" class="key" data-test="devices-again" onClick={load}>
          <Icon is="undo" />
          Look again
        </button>
      </div>
      <Alert say={say} />
      <ul class="devices">
        {list.map((d) => (
          <DeviceRow key={d.id} device={d} others={stillIn(d, list)} onRevoked={load} />
        ))}
      </ul>
    </section>
  );
}

interface DeviceRowProps {
  device: Device;
  /** Other ids of the same device that may still come in. */
  others: readonly Device[];
  onRevoked: () => void;
}

function DeviceRow({ device, others, onRevoked }: DeviceRowProps) {
  const machine = useMachine();
  const now = useMinute();
  const [sure, setSure] = useState(false);
  const [say, setSay] = useState("");
  const out = device.revoked_ms > 0;
  const revoke = () => {
    machine.revoke(device.id).then(
      () => {
        setSure(false);
        onRevoked();
      },
      (e: unknown) => setSay(refusalSays(e)),
    );
  };
  return (
    <li class={out ? "device out" : "device"} data-test="device-row" data-device={device.id}>
      <div>
        <b>{device.label || "A device without a name"}</b>
        {device.this && " (this one)"}
        <small>
          {out
            ? `shut out ${when(device.revoked_ms, now)}`
            : device.seen_ms > 0
              ? `last here ${when(device.seen_ms, now)}`
              : `paired ${when(device.created_ms, now)}, not here yet`}
          {device.succeeds && "; a second id of the same device"}
        </small>
      </div>
      {!out && !sure && (
        <button type="button" class="key" data-test="revoke" onClick={() => setSure(true)}>
          <Icon is="cross" />
          Shut out …<span class="unseen">: {device.label}</span>
        </button>
      )}
      {sure && (
        <div class="sure" role="group" aria-label={`Shut out ${device.label}?`}>
          <p>
            It can no longer read or write here. What it has not sent can still be saved to a file on it.
            {device.this && " This is the device you are looking at."}
            {others.length > 0 &&
              ` It also has ${count(others.length, "another id", "other ids")} in this list: if it was lost, shut out every one.`}
          </p>
          <div class="row">
            <button type="button" class="key danger" data-test="revoke-go" onClick={revoke}>
              <Icon is="cross" />
              Shut it out
            </button>
            <button type="button" class="key" onClick={() => setSure(false)}>
              <Icon is="back" />
              Leave it
            </button>
          </div>
        </div>
      )}
      <Alert say={say} />
    </li>
  );
}
