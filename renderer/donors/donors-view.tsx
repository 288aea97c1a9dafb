import { useEffect, useState } from 'react';
import type { DonorBoard } from '../../core/donors/donor-board.ts';
import { useActions } from '../state/use-desk.ts';
import { DonorPage } from './donor-page.tsx';
import { FindDonor } from './find-donor.tsx';
import './donors.css';

/** Boards kept for their parts: what is left on each, and a search across the shelves. */
export function DonorsView() {
  const { ask } = useActions();
  const [donors, setDonors] = useState<readonly DonorBoard[] | null>(null);
  const [openId, setOpenId] = useState<string | null>(null);
  const read = async (): Promise<void> => setDonors(await ask('listDonors', {}));
  // biome-ignore lint/correctness/useExhaustiveDependencies: read once, then after each change
  useEffect(() => {
    void read();
  }, []);
  const open = donors?.find(({ id }) => id === openId) ?? null;
  return (
    <main className="donors">
      <nav className="donor-lines" aria-label="Donor boards">
        <button
          type="button"
          className={`plain${donors?.length === 0 ? ' strong' : ''}`}
          onClick={() => setOpenId(null)}
        >
          Put a board on a shelf
        </button>
        {donors === null && <p className="quiet">Reading the shelves…</p>}
        {donors?.length === 0 && (
          <p className="quiet">No donor board yet. Add one and list what its model carries.</p>
        )}
        <ul>
          {donors?.map((donor) => (
            <li key={donor.id}>
              <button
                type="button"
                className="donor-line"
                aria-current={donor.id === openId}
                onClick={() => setOpenId(donor.id)}
              >
                <span>{donor.boardModel}</span>
                <span className="quiet">
                  {donor.shelf !== '' && `shelf ${donor.shelf}, `}
                  {donor.left.length} left, {donor.taken.length} taken
                </span>
              </button>
            </li>
          ))}
        </ul>
      </nav>
      <section className="donor-page" aria-label="Donor board">
        <FindDonor onTaken={() => void read()} />
        <DonorPage
          key={open?.id ?? 'new'}
          donor={open}
          onChanged={(id) => {
            setOpenId(id);
            void read();
          }}
        />
      </section>
    </main>
  );
}
