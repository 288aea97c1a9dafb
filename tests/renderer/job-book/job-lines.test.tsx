import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { JobLines } from '../../../renderer/job-book/job-lines.tsx';
import { fakeJob, lineOf } from '../../support/fake-jobs.ts';

describe('lines of the job book', () => {
  it('show what was written as text, whatever it looks like', () => {
    const nasty = '<img src=x onerror=alert(1)>';
    const line = lineOf(fakeJob(7, { boardModel: nasty, symptom: nasty, serialNumber: nasty }, 0));
    const html = renderToStaticMarkup(<JobLines lines={[line]} onOpen={() => {}} />);
    expect(html).not.toContain('<img');
    expect(html.split('&lt;img src=x onerror=alert(1)&gt;').length - 1).toBe(3);
  });

  it('call a board that nobody knows so', () => {
    const line = lineOf(fakeJob(7, { boardModel: null }, 0));
    expect(renderToStaticMarkup(<JobLines lines={[line]} onOpen={() => {}} />)).toContain(
      'Board unknown',
    );
  });
});
