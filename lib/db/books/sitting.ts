import 'server-only'
import { unbroken, type Rule } from './rule'

const ANSWERS = `(SELECT 'Score' AS kind, id, servingId, attributeId, value FROM Score
                  UNION ALL SELECT 'LateScore', id, servingId, attributeId, value FROM LateScore
                  UNION ALL SELECT 'ReplacedAnswer', id, servingId, attributeId, value FROM ReplacedAnswer
                  WHERE attributeId IS NOT NULL OR value IS NOT NULL)`

export const sittingRules = [
  unbroken({ code: 'serving-positions', table: 'Serving', parent: 'seatId', number: 'position' }),
  {
    code: 'tray-not-full',
    find: `SELECT s.id, p.id AS panel FROM Seat s JOIN Panel p ON p.id = s.panelId
           WHERE p.kind <> 'difference' AND (SELECT count(*) FROM Serving v WHERE v.seatId = s.id)
             <> coalesce(p.cupsPerTaster, (SELECT count(*) FROM Cup c WHERE c.panelId = p.id))`,
  },
  {
    code: 'code-not-three-digits',
    find: `SELECT id, code FROM Serving WHERE code NOT GLOB '[0-9][0-9][0-9]'`,
  },
  {
    code: 'taken-without-taster',
    find: `SELECT s.id FROM Seat s WHERE takenAt IS NOT NULL AND NOT onPaper
             AND NOT EXISTS (SELECT 1 FROM Taster t WHERE t.seatId = s.id)`,
  },
  {
    code: 'taster-on-free-seat',
    find: `SELECT t.id, s.id AS seat FROM Taster t JOIN Seat s ON s.id = t.seatId WHERE s.takenAt IS NULL`,
  },
  {
    code: 'phone-at-free-seat',
    find: `SELECT id FROM Seat WHERE takenAt IS NULL AND browserHash IS NOT NULL`,
  },
  {
    code: 'paper-at-free-seat',
    find: `SELECT id FROM Seat WHERE takenAt IS NULL AND onPaper`,
  },
  {
    code: 'barred-half-said',
    find: `SELECT id FROM Seat WHERE (barredAt IS NULL) <> (barredWhy IS NULL)`,
  },
  {
    code: 'aside-half-said',
    find: `SELECT id FROM Seat WHERE (setAsideAt IS NULL) <> (setAsideWhy IS NULL)
             OR (setAsideAt IS NULL) <> (setAsideById IS NULL)`,
  },
  {
    code: 'repeat-of-elsewhere',
    find: `SELECT s.id FROM Seat s LEFT JOIN Seat e ON e.id = s.repeatOfSeatId AND e.id <> s.id AND e.panelId = s.panelId
           WHERE s.repeatOfSeatId IS NOT NULL AND e.id IS NULL`,
  },
  {
    code: 'taster-half-forgotten',
    find: `SELECT id FROM Taster WHERE (name IS NULL) <> (forgottenAt IS NOT NULL)`,
  },
  {
    code: 'score-off-the-scale',
    find: `SELECT x.kind, x.id, x.value FROM ${ANSWERS} x LEFT JOIN PanelAttribute a ON a.id = x.attributeId
           WHERE x.value IS NOT NULL AND CASE a.kind
             WHEN 'just-right-5' THEN x.value NOT BETWEEN 1 AND 5
             WHEN 'intensity-100' THEN x.value NOT BETWEEN 0 AND 100
             WHEN 'words' THEN x.value NOT BETWEEN 0 AND (1 << json_array_length(a.options, '$.words')) - 1
             ELSE x.value NOT BETWEEN 1 AND 9 END`,
  },
  {
    code: 'score-of-other-panel',
    find: `SELECT x.kind, x.id FROM ${ANSWERS} x JOIN Serving v ON v.id = x.servingId
           LEFT JOIN PanelAttribute a ON a.id = x.attributeId AND a.panelId = v.panelId WHERE a.id IS NULL`,
  },
  {
    code: 'score-at-free-seat',
    find: `SELECT c.id, s.id AS seat FROM Score c JOIN Serving v ON v.id = c.servingId JOIN Seat s ON s.id = v.seatId
           WHERE s.takenAt IS NULL`,
  },
  {
    code: 'score-while-not-open',
    find: `SELECT c.id, p.id AS panel, p.stage FROM Score c JOIN Serving v ON v.id = c.servingId
           JOIN Panel p ON p.id = v.panelId WHERE p.stage IN ('draft', 'called-off')`,
  },
  {
    code: 'late-while-open',
    find: `SELECT c.id, p.id AS panel, p.stage FROM LateScore c JOIN Serving v ON v.id = c.servingId
           JOIN Panel p ON p.id = v.panelId WHERE p.stage IN ('draft', 'open')`,
  },
  {
    code: 'revision-not-counted',
    find: `SELECT id, revision FROM Score WHERE revision < 1
           UNION SELECT id, commentRevision FROM Serving WHERE comment IS NOT NULL AND commentRevision < 1`,
  },
  {
    code: 'skip-half-said',
    find: `SELECT id FROM Serving WHERE (skippedAt IS NULL) <> (skipReason IS NULL)
             OR (skippedAt IS NOT NULL AND lockedAt IS NULL)`,
  },
] as const satisfies readonly Rule[]
