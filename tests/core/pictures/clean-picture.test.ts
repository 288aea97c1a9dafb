import ExifReader from 'exifreader';
import fc from 'fast-check';
import jpeg from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { type CleanPicture, cleanPicture } from '../../../core/pictures/clean-picture.ts';
import {
  makeJpeg,
  makePng,
  makeWebp,
  pngChunk,
  webpChunk,
  withCameraNotes,
  withSegment,
} from '../../support/make-pictures.ts';

const plain = makeJpeg({ width: 48, height: 32 });
const clean = (bytes: Uint8Array): CleanPicture => cleanPicture(bytes, 'a picture');

/** The bytes in a buffer of their own, as the reader wants them. */
const alone = (bytes: Uint8Array): ArrayBuffer => new Uint8Array(bytes).buffer;

/** What a reader that is not ours finds in a file beside its size. */
function notesIn(bytes: Uint8Array): string[] {
  const tags = ExifReader.load(alone(bytes), { expanded: true });
  return Object.entries(tags).flatMap(([group, found]) =>
    [
      'exif',
      'gps',
      'iptc',
      'xmp',
      'mpf',
      'photoshop',
      'makerNotes',
      'Thumbnail',
      'pngText',
    ].includes(group)
      ? Object.keys(found as object).map((name) => `${group}:${name}`)
      : [],
  );
}

function refusal(bytes: Uint8Array): string {
  try {
    clean(bytes);
  } catch (thrown) {
    expect(thrown).toBeInstanceOf(WakelineError);
    const { trouble } = thrown as WakelineError;
    expect(trouble).toMatchObject({ code: 'bad-picture', where: 'a picture' });
    expect(trouble.todo).toContain('Nothing was kept of it.');
    return trouble.what;
  }
  return 'taken';
}

describe('a JPEG', () => {
  it('loses where it was taken and every other note, by a reader that is not ours', () => {
    const noted = withCameraNotes(plain, { orientation: 6, taken: '2026:01:05 09:30:00' });
    const place = ExifReader.load(alone(noted), { expanded: true }).gps;
    expect(place?.Latitude).toBeCloseTo(12.345678, 4);
    expect(place?.Longitude).toBeCloseTo(-98.765432, 4);

    const { bytes } = clean(noted);
    expect(notesIn(bytes)).toEqual(['exif:Orientation']);
    expect(Buffer.from(bytes).includes('Somebody')).toBe(false);
    expect(Buffer.from(bytes).includes('secret comment')).toBe(false);
  });

  it('keeps every pixel: a decoder that is not ours sees no difference', () => {
    const noted = withCameraNotes(plain, { orientation: 6 });
    expect(jpeg.decode(clean(noted).bytes).data).toEqual(jpeg.decode(plain).data);
  });

  it('is upright as it was: its size is told as shown, and the turn stays in the file', () => {
    for (const orientation of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const { bytes, width, height, exif } = clean(withCameraNotes(plain, { orientation }));
      expect([width, height]).toEqual(orientation >= 5 ? [32, 48] : [48, 32]);
      expect(exif.orientation).toBe(orientation);
      const kept = ExifReader.load(alone(bytes)).Orientation?.value ?? 1;
      expect(kept).toBe(orientation);
    }
  });

  it('tells when it was taken by the camera, before that goes too', () => {
    const { exif } = clean(withCameraNotes(plain, { taken: '2026:01:05 09:30:00' }));
    expect(exif.takenLocalMs).toBe(Date.UTC(2026, 0, 5, 9, 30));
    expect(clean(withCameraNotes(plain, { taken: '0000:00:00 00:00:00' })).exif.takenLocalMs).toBe(
      null,
    );
  });

  it('keeps its colour profile and drops comments, other notes and what hangs behind its end', () => {
    const profile = Buffer.from('ICC_PROFILE\0\x01\x01profile', 'latin1');
    const xmp = Buffer.from('http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>here</x:xmpmeta>', 'latin1');
    let noted = withSegment(plain, 0xe2, profile);
    noted = withSegment(noted, 0xe1, xmp);
    noted = withSegment(noted, 0xfe, Buffer.from('a comment'));
    noted = withSegment(noted, 0xed, Buffer.from('Photoshop 3.0\0somewhere'));
    noted = Buffer.concat([noted, Buffer.from('a film of the room hangs here')]);
    const kept = Buffer.from(clean(noted).bytes);
    expect(kept.includes('ICC_PROFILE')).toBe(true);
    for (const gone of ['xmpmeta', 'a comment', 'somewhere', 'the room']) {
      expect(kept.includes(gone), gone).toBe(false);
    }
  });

  it('is the same when it is cleaned again', () => {
    const once = clean(withCameraNotes(plain, { orientation: 8 })).bytes;
    expect(clean(once).bytes).toEqual(once);
  });
});

describe('a PNG and a WebP', () => {
  it('lose their notes and keep what draws them', () => {
    const noted = makePng({
      width: 5,
      height: 4,
      extra: [
        pngChunk('gAMA', Buffer.from([0, 0, 177, 143])),
        pngChunk('tEXt', Buffer.from('Location\0somewhere')),
        pngChunk('eXIf', Buffer.from('MM\0*somewhere')),
        pngChunk('iTXt', Buffer.from('XML:com.adobe.xmp\0\0\0\0\0somewhere')),
        pngChunk('tIME', Buffer.from([7, 234, 1, 5, 9, 30, 0])),
      ],
    });
    const { bytes, width, height, type } = clean(noted);
    expect([type, width, height]).toEqual(['image/png', 5, 4]);
    expect(Buffer.from(bytes).includes('somewhere')).toBe(false);
    expect(bytes).toEqual(
      new Uint8Array(
        makePng({ width: 5, height: 4, extra: [pngChunk('gAMA', Buffer.from([0, 0, 177, 143]))] }),
      ),
    );
  });

  it('drops the notes of a WebP, its flags and its size following', () => {
    const noted = makeWebp({
      flags: 0x0c,
      extra: [webpChunk('EXIF', Buffer.from('somewhere')), webpChunk('XMP ', Buffer.from('there'))],
    });
    const { bytes, width, height, type } = clean(noted);
    expect([type, width, height]).toEqual(['image/webp', 1, 1]);
    expect(bytes).toEqual(new Uint8Array(makeWebp()));
  });
});

describe('what is refused, with what it is and what to do', () => {
  const cases: readonly (readonly [name: string, bytes: Uint8Array, words: string])[] = [
    ['a text with a picture’s name', Buffer.from('just words'), 'not a picture'],
    ['nothing', Buffer.alloc(0), 'empty'],
    ['a GIF', Buffer.from('GIF89a......'), 'GIF'],
    ['a HEIC', Buffer.from('\0\0\0\x18ftypheic\0\0\0\0', 'latin1'), 'HEIC'],
    ['a film', Buffer.from('\0\0\0\x18ftypisom\0\0\0\0', 'latin1'), 'film'],
    ['a drawing with a script', Buffer.from('<svg onload="alert(1)">'), 'SVG'],
    ['a JPEG cut short', plain.subarray(0, plain.length - 40), 'cut short'],
    ['a JPEG of a header only', plain.subarray(0, 20), 'cut short'],
    ['a moving WebP', makeWebp({ flags: 0x02 }), 'moves'],
  ];
  it.each(cases)('%s', (_name, bytes, words) => {
    expect(refusal(bytes)).toContain(words);
  });

  it('a small file that claims to be enormous, whatever its kind', () => {
    const bomb = makePng({ width: 2, height: 2 });
    const head = Buffer.alloc(13);
    head.writeUInt32BE(60_000, 0);
    head.writeUInt32BE(60_000, 4);
    head.set([8, 2, 0, 0, 0], 8);
    const big = Buffer.concat([bomb.subarray(0, 8), pngChunk('IHDR', head), bomb.subarray(33)]);
    expect(refusal(big)).toContain('60000 x 60000 pixels');
    const frame = plain.indexOf(Buffer.from([0xff, 0xc0]));
    const wide = Buffer.from(plain);
    wide.writeUInt16BE(65_000, frame + 7);
    expect(refusal(wide)).toContain('65000 x 32 pixels');
  });

  it('a picture of thousands of scans', () => {
    const from = plain.indexOf(Buffer.from([0xff, 0xda]));
    const scan = plain.subarray(from, -2);
    const many = Buffer.concat([
      plain.subarray(0, -2),
      ...Array(200).fill(scan),
      plain.subarray(-2),
    ]);
    expect(refusal(many)).toContain('too many scans');
  });

  it('a PNG in which one bit fell over', () => {
    const hurt = makePng({ width: 8, height: 8 });
    hurt[50]! ^= 1;
    expect(refusal(hurt)).toContain('cut short or damaged');
  });

  it('any bytes at all: they are taken or refused by name, never anything else', () => {
    const starts = [plain, makePng({ width: 3, height: 3 }), makeWebp()];
    fc.assert(
      fc.property(
        fc.constantFrom(...starts),
        fc.array(fc.tuple(fc.nat(4000), fc.nat(255)), { maxLength: 8 }),
        fc.nat(4000),
        (start, hits, end) => {
          const bytes = Buffer.from(start.subarray(0, Math.max(4, end)));
          for (const [at, value] of hits) bytes[at % bytes.length] = value;
          refusal(bytes);
        },
      ),
      { numRuns: 400 },
    );
  });
});
