// The curves of what is being rinsed, drawn for the room: the last readings, the fit, and what is proposed.
import type { Open } from "../board";
import { Curve } from "../sink/curve";
import { rinsed } from "./rinsed";

export function Curves({ open }: { open: readonly Open[] }) {
  const curves = rinsed(open);
  if (curves.length === 0) return null;
  return (
    <section class="studio-curves" aria-labelledby="rinses" data-test="studio-curves">
      <h2 id="rinses">Conductivity over the rinses, µS/cm at 25 °C</h2>
      {curves.map(({ job, name, rinse }) => (
        <figure class="studio-curve" key={job} data-test="studio-curve">
          <figcaption>
            <a href={`#/t/${job}`}>{name}</a>
            <span>{rinse.say || rinse.refused}</span>
          </figcaption>
          <Curve rinse={rinse} size="large" />
        </figure>
      ))}
    </section>
  );
}
