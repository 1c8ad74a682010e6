/** What a brief implies, in plain words, before any run: what cannot work and why, what air would do. */
import type { JSX } from 'preact';
import type { BriefExplained } from '../../engine/index.ts';
import { checked, faults } from '../state/brief.ts';
import { figure } from '../state/words.ts';
import { goToField } from './go-to-field.ts';

/** More faults are not drawn at once. */
const MOST_FAULTS = 40;

export function BriefWords(): JSX.Element {
  const result = checked.value;
  if (result === null) return <p class="soft">Checking ...</p>;
  if (!result.ok) return <Faults />;
  return <Explained explained={result.explained} name={result.brief.name} />;
}

function Faults(): JSX.Element {
  const count = faults.value.length;
  return (
    <div class="sheet">
      <h2>
        {count} {count === 1 ? 'fault' : 'faults'} to mend
      </h2>
      <ul class="faults">
        {faults.value.slice(0, MOST_FAULTS).map(({ path, message }) => (
          <li key={path + message}>
            {message}{' '}
            <button type="button" class="bare" onClick={() => goToField(path)}>
              Go to {path === '' ? 'the form' : path}
            </button>
          </li>
        ))}
      </ul>
      {count > MOST_FAULTS ? <p class="soft">... and {count - MOST_FAULTS} more.</p> : null}
    </div>
  );
}

function Explained({
  explained,
  name,
}: {
  readonly explained: BriefExplained;
  readonly name: string;
}): JSX.Element {
  return (
    <div class="sheet">
      <h2>The brief is sound</h2>
      {explained.warnings.length === 0 ? null : (
        <>
          <h3>What will not work, and what to know</h3>
          <ul class="warnings">
            {explained.warnings.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </>
      )}
      <p>
        The plate covers {figure(explained.plateArea_cm2)} cm&sup2;, of which{' '}
        {figure(explained.usableArea_cm2)} cm&sup2; lie inside the rim. Pressure drop is quoted at{' '}
        {figure(explained.designFlow_m3_per_h)} m&sup3;/h; air of{' '}
        {figure(explained.air.density_kg_per_m3)} kg/m&sup3;. The search has {explained.genes}{' '}
        genes.
      </p>
      <Yardstick explained={explained} />
      <p>
        It begins with {explained.starts.length} starting designs: {explained.starts.join(', ')}.
      </p>
      <p>
        <a href="#/run">Evolve &ldquo;{name}&rdquo;</a>
      </p>
    </div>
  );
}

function Yardstick({ explained }: { readonly explained: BriefExplained }): JSX.Element {
  return (
    <table>
      <caption>Plain channels at that flow, as a yardstick</caption>
      <thead>
        <tr>
          <th scope="col" class="n">
            Bore [mm]
          </th>
          <th scope="col" class="n">
            Channels
          </th>
          <th scope="col" class="n">
            Air [m/s]
          </th>
          <th scope="col" class="n">
            Reynolds
          </th>
          <th scope="col" class="n">
            Drop [Pa]
          </th>
        </tr>
      </thead>
      <tbody>
        {explained.plates.map((plate) => (
          <tr key={plate.bore_mm}>
            <td class="n">{figure(plate.bore_mm)}</td>
            <td class="n">{plate.channels}</td>
            <td class="n">{figure(plate.velocity_m_per_s)}</td>
            <td class="n">{figure(plate.reynolds)}</td>
            <td class="n">{figure(plate.pressureDrop_Pa)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
