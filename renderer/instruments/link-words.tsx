import type { InstrumentAddress, LinkState } from '../../core/contract/bench-calls.ts';
import type { Trouble } from '../../core/errors.ts';
import { AlarmSign } from '../parts/caution.tsx';
import { identityWords } from '../parts/identity-words.ts';
import { TroubleWords } from '../parts/trouble-words.tsx';
import { addressWords } from './address-words.ts';

interface Props {
  readonly link: LinkState;
  readonly identity: string;
  readonly address: InstrumentAddress | null;
  readonly trouble: Trouble | null;
}

/** Whether an instrument answers, who it says it is, and what went wrong. */
export function LinkWords({ link, identity, address, trouble }: Props) {
  return (
    <>
      <p className="link-words" data-link={link}>
        {link === 'none' && 'Not connected.'}
        {link === 'connecting' && `Connecting to ${addressWords(address)}…`}
        {link === 'live' && (
          <>
            <strong>{identityWords(identity)}</strong>{' '}
            <span className="quiet">at {addressWords(address)}</span>
          </>
        )}
        {link === 'lost' && (
          <>
            <AlarmSign /> Lost at {addressWords(address)}.
          </>
        )}
      </p>
      {trouble !== null && (
        <p className="link-trouble" role="alert">
          <TroubleWords trouble={trouble} />
        </p>
      )}
    </>
  );
}
