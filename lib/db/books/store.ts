import 'server-only'
import { unbroken, type Rule } from './rule'

export const storeRules = [
  unbroken({ code: 'batch-numbers', table: 'PreparationBatch', parent: 'preparationId', number: 'number' }),
  unbroken({ code: 'input-positions', table: 'BatchInput', parent: 'batchId', number: 'position' }),
  {
    code: 'input-of-one-part',
    find: `SELECT id FROM BatchInput WHERE (ingredientId IS NULL) = (inputBatchId IS NULL)`,
  },
  {
    code: 'batch-in-itself',
    find: `SELECT holder AS id FROM (WITH RECURSIVE held(holder, part) AS (
             SELECT batchId, inputBatchId FROM BatchInput WHERE inputBatchId IS NOT NULL
             UNION SELECT held.holder, i.inputBatchId FROM held JOIN BatchInput i ON i.batchId = held.part
             WHERE i.inputBatchId IS NOT NULL) SELECT holder FROM held WHERE holder = part)`,
  },
  unbroken({ code: 'formula-versions', table: 'PreparationFormula', parent: 'preparationId', number: 'version' }),
  unbroken({ code: 'formula-positions', table: 'FormulaInput', parent: 'formulaId', number: 'position' }),
  {
    code: 'formula-input-of-one-part',
    find: `SELECT id FROM FormulaInput WHERE (ingredientId IS NULL) = (preparationId IS NULL)`,
  },
  {
    // of the versions that count: an earlier one is history
    code: 'formula-in-itself',
    find: `SELECT holder AS id FROM (WITH RECURSIVE
             counts(preparation, inner) AS (SELECT f.preparationId, i.preparationId FROM PreparationFormula f
               JOIN FormulaInput i ON i.formulaId = f.id WHERE i.preparationId IS NOT NULL AND f.version = (
                 SELECT max(n.version) FROM PreparationFormula n WHERE n.preparationId = f.preparationId)),
             held(holder, part) AS (SELECT preparation, inner FROM counts
               UNION SELECT held.holder, counts.inner FROM held JOIN counts ON counts.preparation = held.part)
             SELECT holder FROM held WHERE holder = part)`,
  },
  {
    code: 'batch-by-other-formula',
    find: `SELECT b.id, f.id AS formula FROM PreparationBatch b JOIN PreparationFormula f ON f.id = b.formulaId
           WHERE f.preparationId <> b.preparationId`,
  },
  {
    code: 'poured-batch-not-frozen',
    find: `SELECT b.id, whole.id AS usedIn FROM PreparationBatch b
           JOIN BatchInput i ON i.inputBatchId = b.id JOIN PreparationBatch whole ON whole.id = i.batchId
           WHERE whole.frozenAt IS NOT NULL AND b.frozenAt IS NULL
           UNION SELECT b.id, t.id FROM PreparationBatch b
           JOIN TrialLine l ON l.batchId = b.id JOIN Trial t ON t.id = l.trialId
           WHERE t.frozenAt IS NOT NULL AND b.frozenAt IS NULL AND NOT EXISTS (
             SELECT 1 FROM LineAlternative a WHERE a.lineId = l.id AND a.costLevelId = t.costLevelId)`,
  },
  {
    code: 'pack-past-its-opening',
    find: `SELECT id FROM OpenedPack WHERE discardAt < openedAt OR (doneAt IS NULL AND doneById IS NOT NULL)`,
  },
  {
    code: 'reading-half-struck',
    find: `SELECT id FROM CoolingReading WHERE struckAt IS NULL AND struckById IS NOT NULL`,
  },
  {
    code: 'dose-of-nothing',
    find: `SELECT id, name FROM Ingredient WHERE pumpUl <= 0 OR spoonMg <= 0
           UNION SELECT id, name FROM Preparation WHERE pumpUl <= 0 OR spoonMg <= 0`,
  },
  {
    code: 'count-half-kept',
    find: `SELECT id FROM Ingredient WHERE (shelfMg IS NULL) <> (shelfAt IS NULL) OR shelfMg < 0
           UNION SELECT id FROM PreparationBatch WHERE (shelfMg IS NULL) <> (shelfAt IS NULL) OR shelfMg < 0`,
  },
  {
    code: 'change-half-told',
    find: `SELECT id, what FROM UpstreamChange WHERE what NOT IN ('price', 'pack', 'supplier', 'label')
             OR (before IS NULL AND after IS NULL) OR (lookedAt IS NULL AND lookedById IS NOT NULL)`,
  },
] as const satisfies readonly Rule[]
