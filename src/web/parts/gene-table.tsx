/** The genes in which the designs looked at differ. */
import type { JSX } from 'preact';
import { lookUp } from '../state/fronts.ts';
import type { DesignKey } from '../state/fronts.ts';
import { differingGenes } from '../solid/genes.ts';

export function GeneTable({ keys }: { readonly keys: readonly DesignKey[] }): JSX.Element | null {
  const found = keys.flatMap((key) => lookUp(key) ?? []);
  if (found.length < 2) return null;
  const { rows, same } = differingGenes(
    found.map(({ loaded, design }) => ({ genes: loaded.front.genes, values: design.genes })),
  );
  return (
    <>
      <h2>Genes that differ</h2>
      {rows.length === 0 ? (
        <p>These designs have the same genes.</p>
      ) : (
        <div class="scroll" tabIndex={0} role="region" aria-label="Genes that differ">
          <table>
            <caption>
              {same.length === 0
                ? 'No gene is the same in all.'
                : `${same.length} genes are the same in all.`}
            </caption>
            <thead>
              <tr>
                <th scope="col">Gene</th>
                {found.map(({ loaded, design }) => (
                  <th key={`${loaded.id}/${design.id}`} scope="col" class="n">
                    {design.id}
                  </th>
                ))}
                <th scope="col" class="n">
                  Allowed
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map(({ name, values, allowed }) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  {values.map((value, k) => (
                    <td key={keys[k]} class="n">
                      {value}
                    </td>
                  ))}
                  <td class="n">{allowed}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </>
  );
}
