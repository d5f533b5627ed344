import 'server-only'
import { unbroken, type Rule } from './rule'

// Moments are compared nowhere: a clock that was set back while a panel ran breaks nothing. What came after closing is told apart
// by the stage it met, and lies in LateScore.

const DEALT = `(SELECT id FROM Panel WHERE stage <> 'draft')`
const DRAFTS = `(SELECT id FROM Panel WHERE stage = 'draft')`

export const panelRules = [
  {
    code: 'stage-unknown',
    find: `SELECT id, stage FROM Panel WHERE stage NOT IN ('draft', 'open', 'closed', 'decided', 'called-off')`,
  },
  {
    code: 'panel-half-opened',
    find: `SELECT id, stage FROM Panel
           WHERE (stage = 'draft') <> (openedAt IS NULL) OR (stage = 'draft') <> (orderSeed IS NULL)`,
  },
  {
    code: 'panel-half-closed',
    find: `SELECT id, stage FROM Panel WHERE (stage IN ('closed', 'decided')) <> (closedAt IS NOT NULL)
             OR (stage IN ('closed', 'decided')) <> (closingAnswer IS NOT NULL)
             OR (closingAnswer IS NULL) <> (closingAnswerAt IS NULL)`,
  },
  {
    code: 'panel-half-called-off',
    find: `SELECT id, stage FROM Panel WHERE (stage = 'called-off') <> (calledOffAt IS NOT NULL)`,
  },
  {
    code: 'decided-without-decision',
    find: `SELECT id FROM Panel p WHERE stage = 'decided'
             AND NOT EXISTS (SELECT 1 FROM Decision d WHERE d.panelId = p.id)`,
  },
  unbroken({ code: 'cup-places', table: 'Cup', parent: 'panelId', number: 'place', first: 0 }),
  unbroken({ code: 'cup-designs', table: 'Cup', parent: 'panelId', number: 'design', where: 'design IS NOT NULL' }),
  {
    code: 'cup-without-key',
    find: `SELECT id, panelId AS panel FROM Cup
           WHERE panelId IN ${DEALT} AND (design IS NULL OR jugLetter IS NULL)`,
  },
  {
    code: 'draft-with-key',
    find: `SELECT id, panelId AS panel FROM Cup
           WHERE panelId IN ${DRAFTS} AND (design IS NOT NULL OR jugLetter IS NOT NULL)`,
  },
  {
    code: 'cup-of-other-recipe',
    find: `SELECT c.id, c.panelId AS panel FROM Cup c JOIN Panel p ON p.id = c.panelId JOIN Trial t ON t.id = c.trialId
           WHERE t.recipeId <> p.recipeId`,
  },
  {
    code: 'trial-served-twice',
    find: `SELECT panelId AS id, trialId AS trial FROM Cup GROUP BY panelId, trialId, isDuplicate HAVING count(*) > 1`,
  },
  {
    code: 'copy-of-nothing',
    find: `SELECT id, panelId AS panel FROM Cup copy WHERE isDuplicate AND NOT EXISTS (SELECT 1 FROM Cup c
             WHERE c.panelId = copy.panelId AND c.trialId = copy.trialId AND NOT c.isDuplicate)`,
  },
  {
    code: 'poured-trial-not-frozen',
    find: `SELECT c.id, t.id AS trial FROM Cup c JOIN Trial t ON t.id = c.trialId
           WHERE c.panelId IN ${DEALT} AND t.frozenAt IS NULL`,
  },
  {
    code: 'pair-not-served',
    find: `SELECT id FROM Panel p WHERE stage <> 'draft' AND primaryKind = 'one-pair' AND (
             SELECT count(DISTINCT c.trialId) FROM Cup c
             WHERE c.panelId = p.id AND c.trialId IN (p.primaryTrialAId, p.primaryTrialBId)) <> 2`,
  },
  unbroken({ code: 'attribute-positions', table: 'PanelAttribute', parent: 'panelId', number: 'position', first: 0 }),
  {
    code: 'question-unknown',
    find: `SELECT id, kind, position FROM PanelAttribute WHERE (options IS NOT NULL AND NOT json_valid(options))
             OR CASE about
               WHEN 'serving' THEN (position = 0 AND kind <> 'liking-9')
                 OR kind NOT IN ('liking-9', 'just-right-5', 'intensity-100', 'words')
                 OR (kind = 'words' AND coalesce(json_array_length(options, '$.words'), 0) NOT BETWEEN 2 AND 14)
               WHEN 'set' THEN position <> 0 OR kind NOT IN ('choose', 'odd', 'rank')
               ELSE true END`,
  },
  {
    code: 'nothing-asked',
    find: `SELECT id FROM Panel p WHERE NOT EXISTS (SELECT 1 FROM PanelAttribute a WHERE a.panelId = p.id)`,
  },
  unbroken({ code: 'seat-numbers', table: 'Seat', parent: 'panelId', number: 'number' }),
  {
    code: 'seats-not-dealt',
    find: `SELECT id, seatCount AS planned, (SELECT count(*) FROM Seat s WHERE s.panelId = p.id) AS there FROM Panel p
           WHERE (SELECT count(*) FROM Seat s WHERE s.panelId = p.id) <> CASE stage WHEN 'draft' THEN 0 ELSE seatCount END`,
  },
  {
    code: 'link-to-unclosed',
    find: `SELECT l.id, p.id AS panel FROM ReadLink l JOIN Panel p ON p.id = l.panelId
           WHERE p.stage NOT IN ('closed', 'decided')`,
  },
] as const satisfies readonly Rule[]
