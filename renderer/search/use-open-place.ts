import { type RefObject, useEffect } from 'react';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** Goes to the place on a job's page that a search found, once the page is there, and marks it. */
export function useOpenPlace(page: RefObject<HTMLElement | null>, isThere: boolean): void {
  const place = useDeskState((state) => state.openPlace);
  const { placeReached } = useActions();
  useEffect(() => {
    if (place === null || !isThere || page.current === null) return;
    const all = [...page.current.querySelectorAll<HTMLElement>('[data-ref], [data-place]')];
    const target =
      all.find((one) => one.dataset.ref === place.refId) ??
      all.find((one) => one.dataset.place === place.place);
    if (target !== undefined) {
      for (const one of page.current.querySelectorAll('[data-found]')) {
        one.removeAttribute('data-found');
      }
      target.setAttribute('data-found', '');
      target.scrollIntoView({ block: 'center' });
    }
    placeReached();
  }, [place, isThere, page, placeReached]);
}
