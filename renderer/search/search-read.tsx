import { sayTerm } from '../../core/search/say-search.ts';
import type { ParsedSearch } from '../../core/search/search-query.ts';
import { pointAt } from '../../core/units/parse.ts';

/** How a search was understood, or what is wrong with it and where. */
export function SearchRead({ search, parsed }: { search: string; parsed: ParsedSearch }) {
  if (!parsed.ok) {
    return (
      <div className="search-wrong" role="alert">
        <pre aria-hidden="true">{pointAt(search.replace(/\s/gu, ' '), parsed.at)}</pre>
        <p>
          <strong>{parsed.what}</strong>{' '}
          <span className="quiet">
            (character {parsed.at + 1}
            {search.charAt(parsed.at) === '' ? ', the end' : ''})
          </span>
          . {parsed.todo}
        </p>
      </div>
    );
  }
  if (parsed.terms.length === 0) return null;
  return <p className="quiet search-read">Looked for: {parsed.terms.map(sayTerm).join('; ')}.</p>;
}
