import type { ArchiveFault } from '../../lib/interchange/archive/read-archive.ts'

const nothing = 'Nothing was taken from it.'
const again = 'Ask for it to be written and sent again.'
const mb = (bytes: number): string => `${Math.ceil(bytes / 1024 / 1024)} MB`

const sentences: {
  readonly [C in ArchiveFault['code']]: (fault: Extract<ArchiveFault, { code: C }>) => string
} = {
  'archive-too-large': ({ bytes, most }) =>
    `The file has ${mb(bytes)}; an archive of a case has at most ${mb(most)}. ${nothing}`,
  'not-an-archive': () => `This is no zip file, or it is cut short. ${nothing} ${again}`,
  'too-many-files': ({ most }) => `It holds more than ${most} files, more than an archive of a case has. ${nothing}`,
  'bad-file-name': ({ name }) => `A file in it has a name that no archive of a case has (${name}). ${nothing}`,
  'file-twice': ({ name }) => `It holds ${name} twice. ${nothing}`,
  'unpacks-too-large': ({ name }) => `${name} in it would unpack to far more than a case holds. ${nothing}`,
  'no-manifest': () => `It is a zip file, but no archive of a case: manifest.json is missing. ${nothing}`,
  'newer-version': ({ version, known }) =>
    `It was written in version ${version} of the archive; this server reads up to ${known}. Bring this server up to date first. ${nothing}`,
  'missing-file': ({ name }) => `${name} is missing in it. ${nothing} ${again}`,
  'unlisted-file': ({ name }) => `${name} is in it, but not in its list of files. ${nothing} ${again}`,
  'damaged-file': ({ name }) => `${name} in it is not what was written. ${nothing} ${again}`,
  'bad-log': ({ name, line, problem }) => `${name} cannot be played: line ${line}, ${problem}. ${nothing} ${again}`,
  'bad-picture': ({ name }) => `${name} in it is not the photograph that the record names. ${nothing} ${again}`,
  'records-differ': () => `Its records are not those of its log. ${nothing} ${again}`,
}

export const sentenceOfArchiveFault = (fault: ArchiveFault): string =>
  (sentences[fault.code] as (fault: ArchiveFault) => string)(fault)
