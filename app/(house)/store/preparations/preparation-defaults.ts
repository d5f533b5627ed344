import { doseDefaults } from '../dose-defaults'
import { printed, temperatureField } from '@/lib/forms/number-fields'
import type { readPreparation } from '@/lib/tasks/store/read-preparation'

type Preparation = NonNullable<Awaited<ReturnType<typeof readPreparation>>>

/** A preparation as its form fields hold it. */
export function preparationDefaults({ name, kind, storageDeciC, keepsHours, pumpUl, spoonMg, note }: Preparation) {
  return {
    name,
    kind,
    storage: printed(storageDeciC === null ? null : storageDeciC / 10, temperatureField(-40, 100)),
    keepsHours: keepsHours === null ? '' : String(keepsHours),
    ...doseDefaults({ pumpUl, spoonMg }),
    note: note ?? '',
  }
}
