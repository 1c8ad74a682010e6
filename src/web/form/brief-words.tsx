/** What a brief implies, in plain words, before any run. */
import type { JSX } from 'preact';
import { checked } from '../state/brief.ts';
import { figure } from '../state/words.ts';

export function BriefWords(): JSX.Element {
  const result = checked.value;
  if (result === null) return <p class="soft">Checking ...</p>;
  if (!result.ok) {
    return (
      <div class="sheet" role="status">
        <h2>
          {result.faults.length} {result.faults.length === 1 ? 'fault' : 'faults'} to mend
        </h2>
        <ul class="faults">
          {result.faults.map(({ path, message }) => (
            <li key={path + message}>{message}</li>
          ))}
        </ul>
      </div>
    );
  }
  const { explained, brief } = result;
  return (
    <div class="sheet" role="status">
      <h2>The brief is sound</h2>
      <p>
        The plate covers {figure(explained.plateArea_cm2)} cm&sup2;, of which{' '}
        {figure(explained.usableArea_cm2)} cm&sup2; lie inside the rim. Pressure drop is quoted at{' '}
        {figure(explained.designFlow_m3_per_h)} m&sup3;/h; air of{' '}
        {figure(explained.air.density_kg_per_m3)} kg/m&sup3;. The search has {explained.genes}{' '}
        genes.
      </p>
      <table>
        <caption>Plain straight channels at that flow, as a yardstick</caption>
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
      {explained.warnings.length === 0 ? null : (
        <>
          <h3>Worth knowing</h3>
          <ul>
            {explained.warnings.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </>
      )}
      <p>
        It begins with {explained.starts.join(', ')}.{' '}
        <a href="#/run">Evolve &ldquo;{brief.name}&rdquo;</a>
      </p>
    </div>
  );
}
