// Plain JavaScript: what keeps a running house asks this, and the command that makes the backup.

const NAME = /^sipwright-(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)Z\.zip$/
const DAY_MS = 24 * 3_600_000

/**
 * The name of a backup in the folder of backups; the names stand in the order of their times.
 *
 * @param {Date} at
 */
export function backupName(at) {
  return `sipwright-${at.toISOString().slice(0, 19).replaceAll(':', '-')}Z.zip`
}

/**
 * When the backup of that name was made; null for any other file.
 *
 * @param {string} name
 * @returns {Date | null}
 */
export function timeOfBackup(name) {
  const [, day, hour, minute, second] = NAME.exec(name) ?? []
  const at = new Date(`${day}T${hour}:${minute}:${second}Z`)
  return Number.isNaN(at.getTime()) ? null : at
}

/**
 * True when none of these was made within a day of now. One from a future that a wrong clock has seen does not count.
 *
 * @param {readonly string[]} names  what lies in the folder
 * @param {Date} now
 */
export function isBackupDue(names, now) {
  return !names.some((name) => {
    const at = timeOfBackup(name)
    return at !== null && Math.abs(now.getTime() - at.getTime()) < DAY_MS
  })
}
