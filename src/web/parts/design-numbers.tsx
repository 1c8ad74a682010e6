/** All measures of the designs looked at, with limits, ranges, sources and cautions. */
import type { JSX } from 'preact';
import type { Measured } from '../../engine/index.ts';
import type { DesignKey } from '../state/fronts.ts';
import { lookedAt } from '../state/looked-at.ts';
import { figure } from '../state/words.ts';

export function DesignNumbers({ keys }: { readonly keys: readonly DesignKey[] }): JSX.Element {
  const entries = keys.flatMap((key) => lookedAt.value.get(key) ?? []);
  const measured = entries.flatMap((entry) => entry.measured ?? []);
  if (measured.length === 0) return <p class="soft">Measuring ...</p>;
  const [first] = measured;
  const cautions = new Set(first.measures.flatMap((info) => info.caution ?? []));
  return (
    <>
      <h2>Numbers</h2>
      <div class="scroll tall numbers" tabIndex={0} role="region" aria-label="All measures">
        <table>
          <thead>
            <tr>
              <th scope="col">Measure</th>
              {entries.map((entry) => (
                <th key={entry.key} scope="col" class="n">
                  {entry.key.slice(entry.key.lastIndexOf('/') + 1)}
                </th>
              ))}
              <th scope="col">Unit</th>
              <th scope="col">Limit</th>
              <th scope="col">Standing</th>
              <th scope="col">What it means</th>
            </tr>
          </thead>
          <tbody>
            {first.measures.map((info, j) =>
              measured.every((one) => one.readings[j] === null) ? null : (
                <tr key={info.id}>
                  <th scope="row">{info.label}</th>
                  {measured.map((one, k) => (
                    <td key={entries[k].key} class="n">
                      {figure(one.readings[j] ?? null)}
                      <Margin measured={one} id={info.id} />
                    </td>
                  ))}
                  <td>{info.unit}</td>
                  <td>{limitWords(first, info.id)}</td>
                  <td>{info.standing}</td>
                  <td>
                    <details>
                      <summary>{info.meaning}</summary>
                      <p>Holds for: {info.validity}</p>
                      <p>Source: {info.source}</p>
                    </details>
                  </td>
                </tr>
              ),
            )}
          </tbody>
        </table>
      </div>
      {measured.some((one) => one.outside.length > 0) ? (
        <>
          <h2>Outside the range where a number holds</h2>
          <ul>
            {measured.flatMap((one, k) =>
              one.outside.map((text) => (
                <li key={`${k}${text}`}>
                  <strong>{entries[k].key.slice(entries[k].key.lastIndexOf('/') + 1)}</strong>{' '}
                  {text}
                </li>
              )),
            )}
          </ul>
        </>
      ) : null}
      <h2>Cautions</h2>
      <ul>
        {[...cautions].map((text) => (
          <li key={text}>{text}</li>
        ))}
        <li>
          Fingers, heat, mains voltage, dust explosions and fire: no number here is a safety
          assessment. Follow local codes and have a qualified person judge guards, hot parts and
          wiring.
        </li>
      </ul>
    </>
  );
}

function limitWords(measured: Measured, id: string): string {
  return measured.limits
    .filter((limit) => limit.measure === id)
    .map((limit) => `${limit.bound === 'atMost' ? '\u2264' : '\u2265'} ${figure(limit.value)}`)
    .join(', ');
}

/** By how much a design misses a limit; nothing while it keeps it. */
function Margin({
  measured,
  id,
}: {
  readonly measured: Measured;
  readonly id: string;
}): JSX.Element | null {
  const missed = measured.limits.filter((limit) => limit.measure === id && limit.margin < 0);
  if (missed.length === 0) return null;
  return <em class="missed"> missed by {figure(-missed[0].margin)}</em>;
}
