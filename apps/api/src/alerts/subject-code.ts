/** What a letter calls a thing: the code written on it; a person, whose name leaves the records nowhere, by part of the id. */
export const subjectCode = ({
  kind,
  id,
  code,
}: {
  readonly kind: string;
  readonly id: string;
  readonly code: string;
}) => (kind === 'person' ? id.slice(0, 8) : code);
