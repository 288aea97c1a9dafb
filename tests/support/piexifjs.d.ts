/** The part of a library without types that tests use. */
declare module 'piexifjs' {
  type Notes = Readonly<Record<string, Readonly<Record<number, unknown>>>>;
  const piexif: {
    readonly ImageIFD: {
      readonly Make: number;
      readonly Artist: number;
      readonly Orientation: number;
    };
    readonly ExifIFD: { readonly UserComment: number; readonly DateTimeOriginal: number };
    readonly GPSIFD: Readonly<
      Record<'GPSLatitudeRef' | 'GPSLatitude' | 'GPSLongitudeRef' | 'GPSLongitude', number>
    >;
    readonly GPSHelper: { degToDmsRational(degrees: number): unknown };
    dump(notes: Notes): string;
    insert(notes: string, jpegBytes: string): string;
  };
  export = piexif;
}
