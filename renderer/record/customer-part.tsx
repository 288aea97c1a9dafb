import type { JobRecord } from '../../core/record/record-content.ts';
import { PrintedPicture } from './printed-picture.tsx';

/** The first page, for the owner of the board: plain words and at most two pictures. */
export function CustomerPart({ record }: { readonly record: JobRecord }) {
  const { customer, pretend } = record;
  return (
    <section className="customer">
      <header className="head">
        <p className="kind">Your repair in plain words</p>
        <h1>
          {record.title} <span dir="auto">{record.board}</span>
        </h1>
        <p className="quiet">
          {customer.name !== '' && (
            <>
              For <bdi>{customer.name}</bdi>.{' '}
            </>
          )}
          {record.serial !== '' && (
            <>
              Serial number <bdi>{record.serial}</bdi>.{' '}
            </>
          )}
          Printed {record.printed}.
        </p>
      </header>
      {pretend !== null && <p className="pretend">{pretend}</p>}
      {customer.sections.map(({ title, lines }) => (
        <div key={title} className="plain-part">
          <h2>{title}</h2>
          <div>
            {lines.map((line, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
              <p key={at} dir="auto">
                {line}
              </p>
            ))}
          </div>
        </div>
      ))}
      {customer.figures.length > 0 && (
        <div className="plain-pictures">
          {customer.figures.map((figure) => (
            <PrintedPicture key={figure.id} figure={figure} isBrief />
          ))}
        </div>
      )}
      {customer.isCut && (
        <p className="quiet">Shortened (…) to fit one page; the pages behind have every word.</p>
      )}
    </section>
  );
}
