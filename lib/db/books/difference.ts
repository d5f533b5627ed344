import 'server-only'
import type { Rule } from './rule'

const D = (name: string) => `json_extract(p.design, '$.${name}')`

/** Each set of such a panel with its servings counted: all, of the cup served first, of the cup that the plan names first. */
const SETS = `(SELECT s.id, p.id AS panel, ${D('protocol')} AS protocol, count(*) AS servings, count(DISTINCT v.cupId) AS cups,
    sum(v.cupId = (SELECT w.cupId FROM Serving w WHERE w.setId = s.id ORDER BY w.position LIMIT 1)) AS asFirst,
    sum(c.trialId = p.primaryTrialAId) AS ofMore, max(v.position) - min(v.position) AS span
  FROM ServingSet s JOIN Panel p ON p.id = s.panelId AND p.kind = 'difference' AND p.stage <> 'draft'
  JOIN Serving v ON v.setId = s.id JOIN Cup c ON c.id = v.cupId GROUP BY s.id)`

/** What was said about such sets, counted or not, with how many places it names and the first place of its set. */
const ANSWERS = `(SELECT x.*, json_extract(a.options, '$.protocol') AS protocol,
    (SELECT count(*) FROM json_each(CASE WHEN json_valid(x.answer) THEN x.answer ELSE '[]' END)) AS places,
    CASE WHEN json_valid(x.answer) THEN json_extract(x.answer, '$[0]') END AS one,
    CASE WHEN json_valid(x.answer) THEN json_extract(x.answer, '$[1]') END AS other,
    (SELECT min(v.position) FROM Serving v WHERE v.setId = x.setId) AS first
  FROM (SELECT 'SetAnswer' AS kind, id, setId, attributeId, answer FROM SetAnswer
        UNION ALL SELECT 'UncountedAnswer', id, setId, attributeId, answer FROM UncountedAnswer) x
  JOIN PanelAttribute a ON a.id = x.attributeId AND a.kind = 'odd')`

/** What must hold where panels ask whether two cups can be told apart. */
export const differenceRules = [
  {
    code: 'difference-plan-unknown',
    find: `SELECT p.id, p.design FROM Panel p WHERE p.kind = 'difference' AND json_valid(p.design) AND (
             coalesce(${D('protocol')}, '') NOT IN ('triangle', 'duo-trio', 'two-afc', 'three-afc', 'tetrad')
             OR coalesce(${D('aim')}, '') NOT IN ('differ', 'alike') OR coalesce(${D('each')}, 0) NOT IN (1, 2, 3)
             OR (${D('aim')} = 'alike' AND ${D('each')} <> 1) OR coalesce(${D('share')}, 0) NOT BETWEEN 1 AND 99
             OR (${D('protocol')} IN ('two-afc', 'three-afc')) <> (${D('property')} IS NOT NULL)
             OR (${D('property')} IS NOT NULL AND (${D('aim')} = 'alike' OR ${D('each')} <> 1)))`,
  },
  {
    code: 'difference-asked-otherwise',
    find: `SELECT a.id, p.id AS panel FROM PanelAttribute a JOIN Panel p ON p.id = a.panelId
           WHERE p.kind = 'difference' AND json_extract(a.options, '$.protocol') IS NOT ${D('protocol')}`,
  },
  {
    code: 'sets-not-as-many-as-planned',
    find: `SELECT t.id, p.id AS panel FROM Seat t JOIN Panel p ON p.id = t.panelId
           WHERE p.kind = 'difference' AND (SELECT count(*) FROM ServingSet s WHERE s.seatId = t.id) <> ${D('each')}`,
  },
  {
    code: 'set-poured-otherwise',
    find: `SELECT s.id, s.panel FROM ${SETS} s WHERE s.cups <> 2 OR s.span <> s.servings - 1 OR CASE s.protocol
             WHEN 'triangle' THEN s.servings <> 3 WHEN 'duo-trio' THEN s.servings <> 3 OR s.asFirst <> 2
             WHEN 'two-afc' THEN s.servings <> 2 WHEN 'three-afc' THEN s.servings <> 3 OR s.ofMore <> 1
             ELSE s.servings <> 4 OR s.asFirst <> 2 END`,
  },
  {
    code: 'pourings-not-counted',
    find: `SELECT v.seatId AS id, v.cupId AS cup FROM Serving v GROUP BY v.seatId, v.cupId
           HAVING min(v.pouring) <> 1 OR max(v.pouring) <> count(*)`,
  },
  {
    code: 'answer-against-its-method',
    find: `SELECT x.kind, x.id, x.answer FROM ${ANSWERS} x WHERE json_valid(x.answer) AND CASE x.protocol
             WHEN 'tetrad' THEN x.places <> 2 OR x.one >= x.other
             WHEN 'duo-trio' THEN x.places <> 1 OR x.one = x.first ELSE x.places <> 1 END`,
  },
] as const satisfies readonly Rule[]
