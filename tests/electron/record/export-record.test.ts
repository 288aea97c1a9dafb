import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobRecord, Paper } from '../../../core/record/record-content.ts';
import { columnsOfColour } from '../../support/columns-of-colour.ts';
import { hostileRecord, MARKUP } from '../../support/hostile-record.ts';
import { makePng } from '../../support/make-pictures.ts';
import { type PrintAnswer, printRecords } from '../../support/print-records.ts';
import {
  inventedPictures,
  inventedRecord,
  inventedWhole,
  inventRun,
} from '../../support/record-job.ts';

/**
 * The product's own export in a real Electron window, read back with pdfjs-dist (Mozilla's PDF
 * reader) and poppler's tools (pdfinfo, pdffonts, pdftoppm): nothing here trusts the printer.
 */
const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-record-'));
const file = (name: string) => path.join(folder, name);
const bare = { ...inventedWhole, items: [], readings: [], parts: [] };
const wanted: readonly [name: string, paper: Paper, record: JobRecord][] = [
  ['a4.pdf', 'A4', inventedRecord('A4')],
  ['letter.pdf', 'Letter', inventedRecord('Letter')],
  ['hostile.pdf', 'A4', hostileRecord('A4')],
  ['empty.pdf', 'Letter', inventedRecord('Letter', bare, [])],
  ['unread.pdf', 'A4', inventedRecord('A4', bare, [inventRun({ role: 'before' }, [])])],
  [path.join('gone', 'a.pdf'), 'A4', inventedRecord('A4', bare, [])],
];
/** Colours that nothing else on paper has. */
const COLOURS = [
  [230, 0, 230],
  [0, 200, 40],
] as const;
/** The third picture has lost its file. */
const pictureFiles = Object.fromEntries(
  COLOURS.map((_, i) => [inventedPictures[i]!.id, file(`picture-${i}.png`)]),
);
const illustrated = inventedRecord('Letter', undefined, undefined, {
  pictures: inventedPictures,
  warranty: { until: '2026-05-24', note: 'Not on damage by liquid.' },
});
const failing = {
  silent: { pageUrl: 'data:text/html,nothing', timeoutMs: 1500 },
  crashed: { crash: true, timeoutMs: 10_000 },
};
let answers: PrintAnswer[];

beforeAll(async () => {
  writeFileSync(file('letter.pdf'), 'an earlier record');
  for (const [i, rgb] of COLOURS.entries()) {
    writeFileSync(file(`picture-${i}.png`), makePng({ width: 640, height: 480, rgb }));
  }
  const record = inventedRecord('A4', bare, []);
  answers = await printRecords([
    ...wanted.map(([name, paper, record]) => ({ record, paper, path: file(name) })),
    { record, paper: 'A4', path: file('silent.pdf'), ...failing.silent },
    { record, paper: 'A4', path: file('crashed.pdf'), ...failing.crashed },
    { record: illustrated, paper: 'Letter', path: file('pictures.pdf'), pictures: pictureFiles },
  ]);
}, 60_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const tool = (command: string, ...args: string[]) =>
  execFileSync(command, args, { encoding: 'utf8' });

const PICTURE_DPI = 100;
/** A page as poppler draws it. */
const picture = (name: string, page: number) =>
  execFileSync('pdftoppm', ['-r', `${PICTURE_DPI}`, '-f', `${page}`, '-l', `${page}`, file(name)], {
    maxBuffer: 64_000_000,
  });

async function open(name: string): Promise<PDFDocumentProxy> {
  return getDocument({ data: new Uint8Array(readFileSync(file(name))), verbosity: 0 }).promise;
}

interface Piece {
  readonly str: string;
  readonly transform: readonly number[];
  readonly width: number;
}

async function pieces(pdf: PDFDocumentProxy, page: number): Promise<Piece[]> {
  const { items } = await (await pdf.getPage(page)).getTextContent({
    disableNormalization: true,
  });
  return items.filter((item) => 'str' in item && item.str.trim() !== '') as Piece[];
}

/** All text of a PDF with its white space and its direction marks taken out. */
async function textOf(name: string): Promise<string> {
  const pdf = await open(name);
  const all: string[] = [];
  for (let page = 1; page <= pdf.numPages; page += 1) {
    all.push(...(await pieces(pdf, page)).map((piece) => piece.str));
  }
  return tight(all.join(''));
}

const tight = (text: string) => text.replaceAll(/[\s\u2066-\u2069\u202a-\u202e]/g, '');

describe('exportRecord', () => {
  it('prints without a word on the page console, and counts its pages as pdfinfo does', () => {
    for (const [i, [name]] of wanted.slice(0, 5).entries()) {
      const answer = answers[i]!;
      expect(answer).toMatchObject({ ok: true, events: [] });
      const pages = Number(/Pages:\s+(\d+)/.exec(tool('pdfinfo', file(name)))?.[1]);
      expect(answer.ok && answer.value).toEqual({ path: file(name), pages });
    }
  });

  // ISO 216 A4: 210 x 297 mm; ANSI Letter: 8.5 x 11 in. A point is 1/72 in.
  it.each([
    ['a4.pdf', (210 / 25.4) * 72, (297 / 25.4) * 72],
    ['letter.pdf', 8.5 * 72, 11 * 72],
  ])('prints %s on the paper that was asked for', (name, width, height) => {
    const [, w, h] = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(tool('pdfinfo', file(name)))!;
    expect(Math.abs(Number(w) - width)).toBeLessThan(1);
    expect(Math.abs(Number(h) - height)).toBeLessThan(1);
  });

  it('replaces an earlier record and leaves nothing half-written', () => {
    expect(readFileSync(file('letter.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    expect(readdirSync(folder).filter((name) => name.includes('part'))).toEqual([]);
  });

  it('prints the numbers of that run: peak, stage means, held level, energy, readings', async () => {
    const text = await textOf('a4.pdf');
    const record = wanted[0]![2];
    for (const run of record.runs) {
      for (const fact of run.facts) expect(text).toContain(tight(fact.label + fact.text));
      for (const stage of run.stages) {
        expect(text).toContain(
          tight(stage.words + stage.from + stage.lasted + stage.meanAmps + stage.meanVolts),
        );
        expect(text).toContain(tight(stage.reason));
      }
      for (const mark of run.marks) expect(text).toContain(tight(mark.words + mark.at + mark.text));
    }
    expect(text).toContain(tight('Before parts were changed Since'));
    for (const { place, measured, expected, before, since } of record.readings.rows) {
      const first = (before[0] ?? since[0])!;
      expect(text).toContain(tight(place + measured + expected));
      expect(text).toContain(tight(first.value + (first.verdict === '–' ? '' : first.verdict)));
    }
    for (const number of ['0.263A', '1.390A', '33.9mWh', '4.713kΩ', 'overrange', '2.914V']) {
      expect(text).toContain(number);
    }
  });

  it('prints facts, outcome, parts, checklist with reasons and cautions, and the pretend bench', async () => {
    const text = await textOf('letter.pdf');
    const record = wanted[1]![2];
    const { facts, outcome, parts, checklist, summary, pretend } = record;
    for (const fact of [...facts, ...outcome]) expect(text).toContain(tight(fact.text));
    for (const part of parts)
      expect(text).toContain(tight(part.designator + part.action + part.what));
    for (const row of checklist.flatMap((phase) => phase.rows)) {
      for (const said of [row.title, row.reason, row.caution]) expect(text).toContain(tight(said));
    }
    expect(text).toContain(tight(summary.join(' ')));
    expect(text).toContain(tight(pretend ?? 'missing'));
  });

  it('numbers every page', async () => {
    for (const name of ['a4.pdf', 'hostile.pdf', 'empty.pdf']) {
      const pdf = await open(name);
      for (let page = 1; page <= pdf.numPages; page += 1) {
        const text = (await pieces(pdf, page)).map((piece) => piece.str).join('');
        expect(text).toContain(`Page ${page} of ${pdf.numPages}`);
      }
    }
  });

  it('embeds every font, ours among them', () => {
    for (const [name] of wanted.slice(0, 5)) {
      const fonts = tool('pdffonts', file(name)).trim().split('\n').slice(2);
      expect(fonts.length).toBeGreaterThan(0);
      for (const font of fonts)
        expect(font).toMatch(/\s(yes)\s+(yes|no)\s+(yes|no)\s+\d+\s+\d+\s*$/);
      expect(fonts.join('\n')).toMatch(/BarlowRecord-Regular/);
      expect(fonts.join('\n')).toMatch(/BarlowRecord-SemiBold/);
    }
  });

  it('really draws the curve: its colour runs across each plot, and is on no other page', async () => {
    const AMPS = [0xb1, 0x44, 0x00] as const;
    const FRAME_COLUMNS = ((628 - 46) / 672) * (178 / 25.4) * PICTURE_DPI;
    const pdf = await open('a4.pdf');
    let plots = 0;
    for (let page = 1; page <= pdf.numPages; page += 1) {
      const text = (await pieces(pdf, page)).map((piece) => piece.str).join('');
      const here = text.split('Amps, A').length - 1;
      const columns = columnsOfColour(picture('a4.pdf', page), AMPS);
      if (here === 0) expect(columns).toBe(0);
      else expect(columns).toBeGreaterThan(0.97 * FRAME_COLUMNS);
      plots += here;
    }
    expect(plots).toBe(2);
    expect(columnsOfColour(picture('unread.pdf', 1), AMPS)).toBe(0);
  });

  it('draws the curve as lines, not as a picture', () => {
    expect(tool('pdfimages', '-list', file('a4.pdf')).trim().split('\n')).toHaveLength(2);
  });

  it('is tagged for a screen reader: headings, tables, and a sentence behind each plot', async () => {
    expect(tool('pdfinfo', file('a4.pdf'))).toMatch(/Tagged:\s+yes/);
    const structure = tool('pdfinfo', '-struct-text', file('a4.pdf'));
    for (const tag of ['H1', 'H2', 'H3', 'Table', 'TH', 'Figure']) expect(structure).toContain(tag);
    const outline = await (await open('a4.pdf')).getOutline();
    expect(JSON.stringify(outline)).toContain('Run 1 of 2, before repair');
  });

  it('leaves hostile text as text, every letter of it, and runs none of it', async () => {
    const answer = answers[2]!;
    expect(answer).toMatchObject({ ok: true, events: [] });
    const text = await textOf('hostile.pdf');
    expect(text.split(tight(MARKUP)).length).toBeGreaterThan(10);
    const { facts, outcome, checklist, runs, readings } = hostileRecord('A4');
    for (const said of [...facts, ...outcome].map((fact) => fact.text)) {
      if (!/[\u0590-\u05ff\u{1f000}-\u{1ffff}]/u.test(said)) expect(text).toContain(tight(said));
    }
    expect(text).toContain(tight(checklist.at(-1)!.rows.at(-1)!.caution));
    expect(runs).toHaveLength(13);
    for (const run of runs) expect(text).toContain(tight(run.title));
    expect(readings.rows.flatMap(({ before, since }) => [...before, ...since])).toHaveLength(201);
    for (const line of readings.rows.flatMap(({ before }) => before)) {
      expect(text).toContain(tight(line.value + line.verdict + line.at));
    }
    expect(tool('pdfinfo', file('hostile.pdf'))).toMatch(/JavaScript:\s+no/);
  });

  it('keeps everything inside the margins, whatever the text', async () => {
    for (const name of ['a4.pdf', 'letter.pdf', 'hostile.pdf']) {
      const pdf = await open(name);
      for (let page = 1; page <= pdf.numPages; page += 1) {
        const [, , width = 0, height = 0] = (await pdf.getPage(page)).view;
        for (const piece of await pieces(pdf, page)) {
          const [x = 0, y = 0] = piece.transform.slice(4);
          expect(x, piece.str).toBeGreaterThan(36);
          expect(x + piece.width, piece.str).toBeLessThan(width - 36);
          expect(y, piece.str).toBeGreaterThan(15);
          expect(y, piece.str).toBeLessThan(height - 36);
        }
      }
    }
  });

  it('repeats a table heading on every page that the table runs over', async () => {
    const pdf = await open('hostile.pdf');
    let pagesOfReadings = 0;
    for (let page = 1; page <= pdf.numPages; page += 1) {
      const text = (await pieces(pdf, page)).map((piece) => piece.str);
      if (!text.some((piece) => /^rail \d+$/.test(piece.trim()))) continue;
      pagesOfReadings += 1;
      expect(text.join(' ')).toMatch(/Place\s+Measured\s+Expected\s+Before parts were changed/);
    }
    expect(pagesOfReadings).toBeGreaterThan(3);
  });

  const pageTexts = async (name: string) => {
    const pdf = await open(name);
    const texts: string[] = [];
    for (let page = 1; page <= pdf.numPages; page += 1) {
      texts.push((await pieces(pdf, page)).map(({ str }) => str).join(''));
    }
    return texts.map(tight);
  };

  it('gives the owner one page in plain words, whatever the text, and the rest begins on the next', async () => {
    for (const name of ['a4.pdf', 'letter.pdf', 'hostile.pdf', 'empty.pdf', 'pictures.pdf']) {
      const texts = await pageTexts(name);
      const own = tight('Your repair in plain words');
      const rest = tight('For the next repairer');
      expect(
        texts.map((text) => text.includes(own)),
        name,
      ).toEqual(texts.map((_, i) => i === 0));
      expect(
        texts.map((text) => text.includes(rest)),
        name,
      ).toEqual(texts.map((_, i) => i === 1));
      expect(texts[0], name).toContain(tight('What to look out for'));
    }
    const [first] = await pageTexts('pictures.pdf');
    for (const said of ['What was wrong', 'How it was proved', 'until 24 May 2026.', 'left out']) {
      expect(first).toContain(tight(said));
    }
    expect((await pageTexts('hostile.pdf'))[0]).toContain(tight('to fit one page'));
  });

  it('prints pictures at a useful size with marks and temperatures, before and after side by side', async () => {
    const texts = await pageTexts('pictures.pdf');
    const at = texts.findIndex((text) => text.includes('Pictures'));
    expect(texts[at]).toContain(tight('Before: thermal picture of main rail'));
    expect(texts[at]).toContain(tight('C214, hot spot, 87.5 °C'));
    expect(texts[0]).toContain(tight('C214 87.5 °C'));
    const across = (page: number, colour: (typeof COLOURS)[number]) =>
      (columnsOfColour(picture('pictures.pdf', page), colour) / PICTURE_DPI) * 25.4;
    for (const colour of COLOURS) {
      // Half of a page inside its margins is 86 mm on Letter; a mark and its tag hide no column.
      expect(across(at + 1, colour)).toBeGreaterThan(82);
      expect(across(1, colour)).toBeGreaterThan(60);
      expect(across(2, colour)).toBe(0);
    }
    const listed = tool('pdfimages', '-list', file('pictures.pdf')).trim().split('\n').slice(2);
    expect(listed.filter((line) => / image /.test(line))).toHaveLength(4);
  });

  it('says in its place that the file of a picture is lost, and prints the rest', async () => {
    const text = await textOf('pictures.pdf');
    expect(text).toContain(
      tight('This picture is not printed: its file is missing or was changed'),
    );
    expect(text).toContain(tight('A crack from edge to edge.'));
    expect(tool('pdfinfo', '-struct-text', file('pictures.pdf'))).toContain('Figure');
  });

  it('prints a job without runs or readings, and a run without a reading', async () => {
    expect(await textOf('empty.pdf')).toContain(tight('The board was not powered in this job.'));
    expect(await textOf('unread.pdf')).toContain(tight('there is nothing to draw'));
  });

  it('says what was wrong, where and what to do when the file cannot be written', () => {
    expect(answers[5]).toMatchObject({
      ok: false,
      trouble: { code: 'file-not-written', where: file(path.join('gone', 'a.pdf')) },
    });
    expect(existsSync(file('gone'))).toBe(false);
  });

  it('gives up on a page that never draws or dies, writes nothing and closes its window', () => {
    expect(answers[6]).toMatchObject({
      ok: false,
      trouble: { code: 'file-not-written', where: file('silent.pdf') },
    });
    expect(JSON.stringify(answers[6])).toContain('did not draw within 1.5 s');
    expect(JSON.stringify(answers[7])).toMatch(
      /could not be printed: (the print page stopped|ERR_FAILED)/,
    );
    expect(readdirSync(folder).filter((name) => /silent|crashed/.test(name))).toEqual([]);
    expect(answers[7]?.windowsLeft).toBe(0);
  });

  it('draws in an isolated, sandboxed page without Node', () => {
    for (const { preferences } of answers) {
      expect(preferences).toMatchObject({
        contextIsolation: true,
        sandbox: true,
        nodeIntegration: false,
        webviewTag: false,
      });
    }
  });
});
