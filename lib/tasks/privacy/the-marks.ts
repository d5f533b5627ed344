import 'server-only'
import { theEnvironment } from '@/lib/base/env'
import { forgottenMarks, type ForgottenMarks } from '@/lib/db/forgotten-marks'

/** Of the database that this process serves. */
export function theForgottenMarks(): ForgottenMarks {
  return forgottenMarks(theEnvironment().databaseFile)
}
