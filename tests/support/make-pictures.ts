import { deflateSync } from 'node:zlib';
import crc32 from 'crc-32';
import jpeg from 'jpeg-js';
import piexif from 'piexifjs';

/** A place that nobody's board is at: it must never come back out. */
export const SECRET_PLACE = { latitude: 12.345678, longitude: -98.765432 } as const;

/** Pixels with something to see: a warm spot on a cool ground. */
function pixels(width: number, height: number, seed: number): Buffer {
  const data = Buffer.alloc(width * height * 4);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const heat = Math.exp(-((x / width - 0.7) ** 2 + (y / height - 0.4) ** 2) * 40);
      data.set([40 + 210 * heat, (seed * 37) % 120, 160 * (1 - heat), 255], (y * width + x) * 4);
    }
  }
  return data;
}

/** A JPEG by an encoder that is not ours. `seed` makes it another picture. */
export function makeJpeg(o: { width: number; height: number; seed?: number }): Buffer {
  const { width, height, seed = 1 } = o;
  return jpeg.encode({ width, height, data: pixels(width, height, seed) }, 90).data;
}

/** The same with a camera's notes, the place among them, written by a library that is not ours. */
export function withCameraNotes(
  plain: Buffer,
  o: { orientation?: number; taken?: string } = {},
): Buffer {
  const { ImageIFD, ExifIFD, GPSIFD } = piexif;
  const { degToDmsRational } = piexif.GPSHelper;
  const notes = piexif.dump({
    '0th': {
      [ImageIFD.Make]: 'Made-up camera',
      [ImageIFD.Artist]: 'Somebody',
      ...(o.orientation === undefined ? {} : { [ImageIFD.Orientation]: o.orientation }),
    },
    Exif: {
      [ExifIFD.UserComment]: 'secret comment',
      ...(o.taken === undefined ? {} : { [ExifIFD.DateTimeOriginal]: o.taken }),
    },
    GPS: {
      [GPSIFD.GPSLatitudeRef]: 'N',
      [GPSIFD.GPSLatitude]: degToDmsRational(SECRET_PLACE.latitude),
      [GPSIFD.GPSLongitudeRef]: 'W',
      [GPSIFD.GPSLongitude]: degToDmsRational(-SECRET_PLACE.longitude),
    },
  });
  return Buffer.from(piexif.insert(notes, plain.toString('binary')), 'binary');
}

/** A segment of a JPEG put in right after its first two bytes. */
export function withSegment(jpegBytes: Buffer, marker: number, body: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([jpegBytes.subarray(0, 2), head, body, jpegBytes.subarray(2)]);
}

export function pngChunk(name: string, body: Buffer): Buffer {
  const chunk = Buffer.concat([
    Buffer.alloc(4),
    Buffer.from(name, 'latin1'),
    body,
    Buffer.alloc(4),
  ]);
  chunk.writeUInt32BE(body.length, 0);
  chunk.writeInt32BE(crc32.buf(chunk.subarray(4, -4), 0), chunk.length - 4);
  return chunk;
}

/** A PNG of one colour, with more chunks before its end. */
export function makePng(o: {
  width: number;
  height: number;
  rgb?: readonly [number, number, number];
  extra?: readonly Buffer[];
  /** Coded data that no decoder can open, under checksums that hold. */
  rubbish?: boolean;
}): Buffer {
  const { width, height, rgb = [200, 40, 30] } = o;
  const row = Buffer.concat([Buffer.from([0]), Buffer.alloc(width * 3, Buffer.from(rgb))]);
  const rows = Buffer.concat(Array.from({ length: height }, () => row));
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    pngChunk('IHDR', head),
    ...(o.extra ?? []),
    pngChunk('IDAT', o.rubbish === true ? Buffer.from('no compressed data') : deflateSync(rows)),
    pngChunk('IEND', Buffer.alloc(0)),
  ]);
}

/** One white pixel, lossy, as the reference encoder writes it. */
const PLAIN_WEBP = Buffer.from(
  'UklGRiIAAABXRUJQVlA4IBYAAAAwAQCdASoBAAEADsD+JaQAA3AAAAAA',
  'base64',
);

export function webpChunk(name: string, body: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.write(name, 'latin1');
  head.writeUInt32LE(body.length, 4);
  return Buffer.concat([head, body, Buffer.alloc(body.length % 2)]);
}

/** A WebP in its extended form, with the notes and flags asked for (RFC 9649). */
export function makeWebp(o: { flags?: number; extra?: readonly Buffer[] } = {}): Buffer {
  const head = Buffer.alloc(10);
  head[0] = o.flags ?? 0;
  const body = Buffer.concat([
    webpChunk('VP8X', head),
    PLAIN_WEBP.subarray(12),
    ...(o.extra ?? []),
  ]);
  const riff = Buffer.from('RIFF\0\0\0\0WEBP', 'latin1');
  riff.writeUInt32LE(body.length + 4, 4);
  return Buffer.concat([riff, body]);
}
