import 'server-only'
import type { Rule } from './rule'

/** What was said about sets, counted or not. */
const ORDERS = `(SELECT 'SetAnswer' AS kind, id, setId, attributeId, answer FROM SetAnswer
                 UNION ALL SELECT 'UncountedAnswer', id, setId, attributeId, answer FROM UncountedAnswer)`

/** Of panels that put their cups in order. */
export const rankRules = [
  {
    code: 'order-asked-elsewhere',
    find: `SELECT a.id, p.id AS panel FROM PanelAttribute a JOIN Panel p ON p.id = a.panelId
           WHERE a.about = 'set' AND (a.kind = 'rank') <> (p.kind = 'rank')`,
  },
  {
    code: 'order-of-too-few',
    find: `SELECT p.id, (SELECT count(DISTINCT c.trialId) FROM Cup c WHERE c.panelId = p.id) AS trials FROM Panel p
           WHERE p.kind = 'rank' AND p.stage <> 'draft' AND (
             (SELECT count(DISTINCT c.trialId) FROM Cup c WHERE c.panelId = p.id) NOT BETWEEN 3 AND 6
             OR EXISTS (SELECT 1 FROM Cup c WHERE c.panelId = p.id AND c.isDuplicate))`,
  },
  {
    code: 'order-set-not-full',
    find: `SELECT s.id, p.id AS panel FROM ServingSet s JOIN Panel p ON p.id = s.panelId
           WHERE p.kind = 'rank' AND (SELECT count(DISTINCT v.cupId) FROM Serving v WHERE v.setId = s.id)
             <> (SELECT count(*) FROM Cup c WHERE c.panelId = p.id)`,
  },
  {
    code: 'order-not-whole',
    find: `SELECT x.kind, x.id, x.answer FROM ${ORDERS} x JOIN PanelAttribute a ON a.id = x.attributeId
           WHERE a.kind = 'rank' AND json_valid(x.answer) AND (
             json_array_length(x.answer) <> (SELECT count(*) FROM Serving v WHERE v.setId = x.setId)
             OR json_array_length(x.answer) <> (SELECT count(DISTINCT place.value) FROM json_each(x.answer) place))`,
  },
] as const satisfies readonly Rule[]
