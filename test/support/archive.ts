/** A backup taken apart and put together again, honestly or not. */
import { createHash } from 'node:crypto'
import { createWriteStream, readFileSync, writeFileSync } from 'node:fs'
import { pipeline } from 'node:stream/promises'
import { openPromise } from 'yauzl'
import { ZipFile } from 'yazl'

export type Files = Map<string, Buffer>

export async function unpack(file: string): Promise<Files> {
  const zip = await openPromise(file, { lazyEntries: true, autoClose: false })
  const files: Files = new Map()
  for await (const entry of zip.eachEntry()) {
    const pieces: Buffer[] = []
    for await (const piece of await zip.openReadStreamPromise(entry)) pieces.push(piece as Buffer)
    files.set(entry.fileName, Buffer.concat(pieces))
  }
  zip.close()
  return files
}

export async function pack(files: Iterable<readonly [string, Buffer]>, file: string): Promise<void> {
  const zip = new ZipFile()
  for (const [path, bytes] of files) zip.addBuffer(bytes, path)
  zip.end()
  await pipeline(zip.outputStream, createWriteStream(file))
}

export const manifestOf = (files: Files) => JSON.parse(files.get('manifest.json')?.toString('utf8') ?? 'null')

/** Puts a manifest in place of the one that was there. */
export function putManifest(files: Files, manifest: object): void {
  files.set('manifest.json', Buffer.from(JSON.stringify(manifest)))
}

/** Changes a file so that its length and sum are right in the manifest: what only a look at the content can find. */
export function putFile(files: Files, path: string, content: Buffer): void {
  const manifest = manifestOf(files)
  files.set(path, content)
  const listed = manifest.files.find((one: { path: string }) => one.path === path)
  Object.assign(listed, { bytes: content.length, sha256: createHash('sha256').update(content).digest('hex') })
  putManifest(files, manifest)
}

/** Writes other bytes of the same length over every place where some stand. */
export function overwrite(file: string, from: Buffer, to: Buffer): void {
  const bytes = readFileSync(file)
  if (from.length !== to.length || !bytes.includes(from)) throw new Error('nothing to write over')
  for (let at = bytes.indexOf(from); at >= 0; at = bytes.indexOf(from, at + 1)) to.copy(bytes, at)
  writeFileSync(file, bytes)
}
