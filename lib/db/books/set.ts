import 'server-only'
import { unbroken, type Rule } from './rule'

/** What was said about sets, counted or not. */
const ANSWERS = `(SELECT 'SetAnswer' AS kind, id, setId, attributeId, answer FROM SetAnswer
                  UNION ALL SELECT 'UncountedAnswer', id, setId, attributeId, answer FROM UncountedAnswer)`

/** Of each answer `x` about a set, the places it names; none where it cannot be read. */
const PLACES = `json_each(CASE WHEN json_valid(x.answer) THEN x.answer ELSE '[]' END)`

export const setRules = [
  {
    code: 'kind-unknown',
    find: `SELECT id, kind FROM Panel WHERE kind NOT IN ('liking', 'choice', 'rank', 'difference') OR (kind <> 'liking') <> (design IS NOT NULL)
             OR (design IS NOT NULL AND NOT json_valid(design))`,
  },
  {
    code: 'question-of-other-kind',
    find: `SELECT a.id, p.id AS panel FROM PanelAttribute a JOIN Panel p ON p.id = a.panelId
           WHERE (a.about = 'set') <> (p.kind <> 'liking')`,
  },
  unbroken({ code: 'set-numbers', table: 'ServingSet', parent: 'seatId', number: 'number' }),
  {
    code: 'serving-beside-its-sets',
    find: `SELECT v.id, p.id AS panel FROM Serving v JOIN Panel p ON p.id = v.panelId
           WHERE (p.kind <> 'liking') <> (v.setId IS NOT NULL)`,
  },
  {
    code: 'set-of-other-seat',
    find: `SELECT v.id, s.id AS "set" FROM Serving v JOIN ServingSet s ON s.id = v.setId WHERE s.seatId <> v.seatId`,
  },
  {
    code: 'set-not-full',
    find: `SELECT s.id, p.id AS panel FROM ServingSet s JOIN Panel p ON p.id = s.panelId
           WHERE p.kind = 'choice' AND (SELECT count(DISTINCT v.cupId) FROM Serving v WHERE v.setId = s.id) <> 2`,
  },
  {
    code: 'set-apart-from-servings',
    find: `SELECT s.id, v.id AS serving FROM ServingSet s JOIN Serving v ON v.setId = s.id
           WHERE (s.lockedAt IS NULL) <> (v.lockedAt IS NULL) OR (s.skippedAt IS NULL) <> (v.skippedAt IS NULL)`,
  },
  {
    code: 'set-skip-half-said',
    find: `SELECT id FROM ServingSet WHERE (skippedAt IS NULL) <> (skipReason IS NULL)
             OR (skippedAt IS NULL) <> (skipSource IS NULL) OR (skippedAt IS NOT NULL AND lockedAt IS NULL)`,
  },
  {
    code: 'set-done-without-answer',
    find: `SELECT s.id FROM ServingSet s WHERE s.lockedAt IS NOT NULL AND s.skippedAt IS NULL
             AND NOT EXISTS (SELECT 1 FROM SetAnswer x WHERE x.setId = s.id)`,
  },
  {
    code: 'answer-not-readable',
    find: `SELECT x.kind, x.id, x.answer FROM ${ANSWERS} x WHERE NOT json_valid(x.answer) OR json_type(x.answer) <> 'array'`,
  },
  {
    code: 'answer-outside-its-set',
    find: `SELECT x.kind, x.id, x.answer FROM ${ANSWERS} x WHERE EXISTS (SELECT 1 FROM ${PLACES} place
             WHERE NOT EXISTS (SELECT 1 FROM Serving v WHERE v.setId = x.setId AND v.position = place.value))`,
  },
  {
    code: 'answer-to-other-question',
    find: `SELECT x.kind, x.id, x.answer FROM ${ANSWERS} x JOIN PanelAttribute a ON a.id = x.attributeId
           WHERE a.kind = 'choose' AND CASE (SELECT count(*) FROM ${PLACES})
             WHEN 0 THEN json_valid(x.answer) AND NOT coalesce(json_extract(a.options, '$.none'), false)
             WHEN 1 THEN false ELSE true END`,
  },
  {
    code: 'answer-of-other-panel',
    find: `SELECT x.kind, x.id FROM ${ANSWERS} x JOIN ServingSet s ON s.id = x.setId
           LEFT JOIN PanelAttribute a ON a.id = x.attributeId AND a.panelId = s.panelId AND a.about = 'set'
           WHERE a.id IS NULL`,
  },
  {
    code: 'answer-at-free-seat',
    find: `SELECT x.id, t.id AS seat FROM SetAnswer x JOIN ServingSet s ON s.id = x.setId JOIN Seat t ON t.id = s.seatId
           WHERE t.takenAt IS NULL`,
  },
  {
    code: 'answer-while-not-open',
    find: `SELECT x.id, p.id AS panel, p.stage FROM SetAnswer x JOIN ServingSet s ON s.id = x.setId
           JOIN Panel p ON p.id = s.panelId WHERE p.stage IN ('draft', 'called-off')`,
  },
  {
    code: 'uncounted-unknown',
    find: `SELECT x.id, x.why, p.stage FROM UncountedAnswer x JOIN ServingSet s ON s.id = x.setId
           JOIN Panel p ON p.id = s.panelId
           WHERE x.why NOT IN ('late', 'replaced') OR (x.why = 'late' AND p.stage IN ('draft', 'open'))`,
  },
  {
    code: 'answer-revision-not-counted',
    find: `SELECT id, revision FROM SetAnswer WHERE revision < 1
           UNION SELECT id, revision FROM UncountedAnswer WHERE revision < 1`,
  },
  {
    code: 'score-in-a-set',
    find: `SELECT c.id, v.id AS serving FROM Score c JOIN Serving v ON v.id = c.servingId WHERE v.setId IS NOT NULL`,
  },
] as const satisfies readonly Rule[]
