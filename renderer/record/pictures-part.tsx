import type { PictureGroup } from '../../core/record/record-content.ts';
import { PrintedPicture } from './printed-picture.tsx';

/** Pictures two a row; the same before and after share a row of their own. */
export function PicturesPart({ groups }: { readonly groups: readonly PictureGroup[] }) {
  if (groups.length === 0) return null;
  return (
    <section>
      <h2>Pictures</h2>
      <div className="pictures">
        {groups.map(({ isPair, figures }) => (
          <div key={figures[0]?.id} className={isPair ? 'pair' : 'alone'}>
            {figures.map((figure) => (
              <PrintedPicture key={figure.id} figure={figure} />
            ))}
          </div>
        ))}
      </div>
    </section>
  );
}
