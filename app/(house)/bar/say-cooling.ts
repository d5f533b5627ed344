import type { Cooling } from '@/lib/drink/cooling'
import { sayMoment } from '@/app/ui/moment'

interface Said {
  readonly look: 'note' | 'caution' | 'stop'
  readonly word: string
  readonly words: string
}

const away = 'Throw it away unless your food-safety rules say otherwise.'

/** Where the cooling stands, at once and in a sentence: nothing is "in time" that no reading shows. */
export function sayCooling(cooling: Cooling, zone: string): Said {
  switch (cooling.state) {
    case 'no-reading':
      return { look: 'caution', word: 'Not known', words: 'Nobody has written down a reading of it yet.' }
    case 'start-unknown':
      return {
        look: 'caution',
        word: 'Not known',
        words: 'No reading was at 57 °C or above, so nobody can say when its time began.',
      }
    case 'in-time':
      return { look: 'note', word: 'In time', words: '21 °C within two hours, 5 °C within six.' }
    case 'warm-again':
      return { look: 'stop', word: 'Warm again', words: `It was cold in time, and was read above 5 °C since. ${away}` }
    case 'running':
      return {
        look: 'caution',
        word: 'Cooling',
        words: `${cooling.celsius} °C must be reached by ${sayMoment(cooling.by, zone)}.`,
      }
    case 'not-shown':
      return {
        look: 'stop',
        word: 'Too late',
        words: `${cooling.celsius} °C was due by ${sayMoment(cooling.by, zone)}, and no reading says that it was. ${away}`,
      }
    case 'too-late':
      return {
        look: 'stop',
        word: 'Too late',
        words: `It was warmer than ${cooling.celsius} °C after ${sayMoment(cooling.by, zone)}. ${away}`,
      }
  }
}
