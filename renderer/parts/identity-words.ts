/**
 * Who an instrument says it is, from the four fields of its `*IDN?` answer (IEEE 488.2, 10.14):
 * maker, model, serial number, firmware. An answer of another shape is shown as it came.
 */
export function identityWords(identity: string): string {
  const fields = identity.split(',').map((field) => field.trim());
  const [maker = '', model = '', serial = '', firmware = ''] = fields;
  if (fields.length !== 4 || model === '') return identity;
  const number = serial === '' || serial === '0' ? '' : `, number ${serial}`;
  return `${maker} ${model}${number}${firmware === '' || firmware === '0' ? '' : `, firmware ${firmware}`}`.trim();
}
