import { dirname } from 'node:path'

/** Something the person at the keyboard can mend: one line, no stack. */
export class StartFailure extends Error {
  /** @param {string} line  what is wrong and what to do about it */
  constructor(line) {
    super(line)
    this.name = 'StartFailure'
  }
}

/**
 * A closed terminal, a pipe whose reader is gone and a file on a full disk lose our words, and end nothing.
 */
export function outliveLostWords() {
  for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined)
}

/**
 * Progress goes to the error stream: the output stream carries only the line with the address.
 *
 * @param {string} line
 */
export function progress(line) {
  process.stderr.write(`${line}\n`)
}

/**
 * The sentence for an error of the operating system, or null for any other error.
 *
 * @param {unknown} error
 * @param {string} place  file or folder it was about
 */
export function systemSentence(error, place) {
  switch (systemCode(error)) {
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return `${dirname(place)} cannot be written: give yourself the right to write there, or put the program in another folder.`
    case 'ENOSPC':
    case 'EDQUOT':
      return `The disk is full: make room where ${dirname(place)} lies, then start again. Nothing was lost.`
    case 'ENOTDIR':
    case 'EEXIST':
    case 'EISDIR':
      return `${place} is in the way: move it elsewhere, then start again.`
    default:
      return null
  }
}

/** @param {unknown} error */
export function systemCode(error) {
  return error instanceof Error && 'code' in error ? String(error.code) : ''
}

/**
 * The line of a failed program's output that names the error.
 *
 * @param {string} text
 */
export function errorLine(text) {
  const lines = text.trim().split('\n')
  return (lines.find((line) => /^(\w+: )?\w*Error\b/.test(line)) ?? lines.at(-1) ?? '').trim()
}
