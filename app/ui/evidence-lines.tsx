import type { DecisionEvidence } from '@/lib/tasks/result/decision-evidence'
import { coins, fixed } from '@/lib/base/number-format'
import { CupMark } from './cup-mark'
import { Fold } from './page-frame'
import { sayBatch } from './say-batch'
import { sayLabels } from './say-labels'
import { ScrollTable } from './scroll-table'

/** What was on the table when it was decided: the sentence, the intervals of what was chosen, what a glass cost and held. */
export function EvidenceLines({ evidence, trialId }: { evidence: DecisionEvidence | null; trialId: string | null }) {
  if (!evidence) return null
  const chosen = evidence.trials.find((trial) => trial.trialId === trialId)
  const about = evidence.claims.filter(
    ({ first, second }) => !chosen?.letter || first === chosen.letter || second === chosen.letter,
  )
  return (
    <div className="grid gap-1 border-s-2 border-line ps-3">
      {evidence.sentence !== null && <p>The panel said: {evidence.sentence}</p>}
      {evidence.today !== null && <p>Computed when it was decided: {evidence.today}</p>}
      {evidence.aside.map(({ which, sentence }) => (
        <p key={which}>
          {which === 'with-all' ? 'With seats set aside before closing' : 'Without seats set aside after closing'}:{' '}
          {sentence}
        </p>
      ))}
      {about.map((claim) => (
        <p key={claim.first + claim.second} className="text-s">
          {sayClaim(claim, evidence)}
        </p>
      ))}
      {chosen && <p className="text-s">{sayGlass(chosen, evidence.currency)}</p>}
      {evidence.trials.length > 1 && (
        <Fold words="All that was poured, as it stood that day">
          <ScrollTable
            label="Trials as they stood when it was decided"
            heads={['Trial', 'Liking', `A glass cost, ${evidence.currency}`, 'Sugars', 'Batches']}
          >
            {evidence.trials.map((trial) => [
              trial.trialId,
              <span key="name">
                {trial.letter !== null && <CupMark letter={trial.letter} />} {trial.number}. {trial.name}
              </span>,
              trial.liking === null ? 'none' : fixed(trial.liking, 1),
              trial.cost === null ? 'not known' : coins(trial.cost, evidence.currency),
              trial.sugars === null ? 'not known' : `${fixed(trial.sugars, 0)} g`,
              trial.batches.length === 0 ? 'none said' : trial.batches.map(sayBatch).join('; '),
            ])}
          </ScrollTable>
        </Fold>
      )}
    </div>
  )
}

function sayClaim(claim: DecisionEvidence['claims'][number], { trials }: DecisionEvidence): string {
  const name = (letter: string) => trials.find((trial) => trial.letter === letter)?.name ?? `cup ${letter}`
  const { first, second, difference, low, high, tasters } = claim
  if (difference === null) return `${name(first)} less ${name(second)}: no difference could be worked out.`
  const sure =
    low === null || high === null ? 'no interval' : `95\u00a0% joint interval ${fixed(low, 2)} to ${fixed(high, 2)}`
  return `${name(first)} less ${name(second)}: ${fixed(difference, 2)} points, ${sure}, ${tasters} scored both.`
}

function sayGlass({ cost, sugars, labels, batches }: DecisionEvidence['trials'][number], currency: string): string {
  const costs = cost === null ? 'What a glass cost was not known' : `A glass cost ${coins(cost, currency)} ${currency}`
  const held = sugars === null ? 'its sugars were not known' : `it held ${fixed(sugars, 0)} g of sugars`
  const named = labels ? sayLabels(labels).join('; ') : 'what its labels said was not known'
  const poured = batches.length > 0 ? ` Poured from: ${batches.map(sayBatch).join('; ')}.` : ''
  return `${costs}; ${held}. Its labels: ${named}.${poured}`
}
