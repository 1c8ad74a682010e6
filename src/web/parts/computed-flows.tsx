/** Flows that the terminal computed for the designs looked at, where their run folder brought them. */
import type { JSX } from 'preact';
import type { FlowWords } from '../../engine/index.ts';
import { lookUp } from '../state/fronts.ts';
import type { DesignKey } from '../state/fronts.ts';

export function ComputedFlows({
  keys,
}: {
  readonly keys: readonly DesignKey[];
}): JSX.Element | null {
  const found = keys.flatMap((key) => {
    const { loaded, design } = lookUp(key) ?? {};
    return loaded?.flows?.filter((flows) => flows.design === design?.id) ?? [];
  });
  const [first] = found;
  if (first === undefined) return null;
  return (
    <>
      <h2>Computed flow against the estimate</h2>
      {found.map((flows) => (
        <FlowTable key={flows.design} flows={flows} />
      ))}
      <p class="soft">{first.method}</p>
    </>
  );
}

function FlowTable({ flows }: { readonly flows: FlowWords }): JSX.Element {
  const last = flows.headings.length - 1;
  const kind = (j: number): string => (j === 0 || j === last ? '' : 'n');
  return (
    <>
      <div
        class="scroll"
        tabIndex={0}
        role="region"
        aria-label={`Computed flows of ${flows.design}`}
      >
        <table>
          <caption>{flows.design}</caption>
          <thead>
            <tr>
              {flows.headings.map((text, j) => (
                <th key={text} scope="col" class={kind(j)}>
                  {text}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {flows.rows.map((row) => (
              <tr key={row.join()}>
                {row.map((text, j) =>
                  j === 0 ? (
                    <th key={j} scope="row">
                      {text}
                    </th>
                  ) : (
                    <td key={j} class={kind(j)}>
                      {text}
                    </td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {flows.verdicts.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </>
  );
}
