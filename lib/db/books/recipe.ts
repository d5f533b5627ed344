import 'server-only'
import { unbroken, type Rule } from './rule'

export const recipeRules = [
  unbroken({ code: 'trial-numbers', table: 'Trial', parent: 'recipeId', number: 'number' }),
  unbroken({ code: 'line-positions', table: 'TrialLine', parent: 'trialId', number: 'position' }),
  unbroken({ code: 'step-positions', table: 'TrialStep', parent: 'trialId', number: 'position' }),
  unbroken({ code: 'level-positions', table: 'CostLevel', parent: 'recipeId', number: 'position' }),
  {
    code: 'line-of-one-part',
    find: `SELECT id FROM TrialLine WHERE (ingredientId IS NULL) = (batchId IS NULL AND preparationId IS NULL)
           UNION SELECT id FROM LineAlternative WHERE (ingredientId IS NULL) = (batchId IS NULL AND preparationId IS NULL)`,
  },
  {
    // of a preparation that is named: the batch it was written with, or poured from
    code: 'line-of-other-preparation',
    find: `SELECT l.id, b.id AS batch FROM TrialLine l JOIN PreparationBatch b ON b.id = l.batchId
           WHERE l.preparationId <> b.preparationId
           UNION SELECT a.id, b.id FROM LineAlternative a JOIN PreparationBatch b ON b.id = a.batchId
           WHERE a.preparationId <> b.preparationId`,
  },
  {
    // a line in whose place its cost level used something else was not poured
    code: 'poured-batch-not-said',
    find: `SELECT l.id, t.id AS trial FROM TrialLine l JOIN Trial t ON t.id = l.trialId
           WHERE t.frozenAt IS NOT NULL AND l.preparationId IS NOT NULL AND l.batchId IS NULL AND NOT EXISTS (
             SELECT 1 FROM LineAlternative a WHERE a.lineId = l.id AND a.costLevelId = t.costLevelId)`,
  },
  {
    code: 'level-of-other-recipe',
    find: `SELECT a.id FROM LineAlternative a JOIN TrialLine l ON l.id = a.lineId JOIN Trial t ON t.id = l.trialId
           JOIN CostLevel c ON c.id = a.costLevelId WHERE c.recipeId <> t.recipeId`,
  },
  {
    code: 'trial-from-itself',
    find: `SELECT child AS id FROM (WITH RECURSIVE line(child, ancestor) AS (
             SELECT id, parentId FROM Trial WHERE parentId IS NOT NULL
             UNION SELECT line.child, t.parentId FROM line JOIN Trial t ON t.id = line.ancestor
             WHERE t.parentId IS NOT NULL) SELECT child FROM line WHERE child = ancestor)`,
  },
  {
    code: 'frozen-without-sheet',
    find: `SELECT id FROM Trial WHERE (frozenAt IS NULL) <> (frozenSheet IS NULL)`,
  },
  {
    code: 'size-price-below-nothing',
    find: `SELECT id FROM SizePrice WHERE priceMinor < 0`,
  },
  {
    code: 'shares-beyond-the-glass',
    find: `SELECT id FROM Recipe WHERE sizeIceBp NOT BETWEEN 0 AND 10000 OR sizeCoffeeBp NOT BETWEEN 0 AND 10000
             OR coalesce(sizeIceBp, 0) + coalesce(sizeCoffeeBp, 0) > 10000`,
  },
  {
    code: 'photo-half-kept',
    find: `SELECT id FROM Photo WHERE (bytes IS NULL) <> (removedAt IS NOT NULL)
             OR (recipeId IS NULL) = (trialId IS NULL) OR type NOT IN ('image/jpeg', 'image/webp')`,
  },
  unbroken({
    code: 'house-versions',
    table: 'Decision',
    parent: 'recipeId',
    number: 'version',
    where: 'version IS NOT NULL',
  }),
  {
    code: 'decision-half-said',
    find: `SELECT id, kind FROM Decision WHERE CASE kind
             WHEN 'adopt' THEN version IS NULL OR trialId IS NULL
             WHEN 'keep' THEN version IS NOT NULL OR trialId IS NULL OR panelId IS NULL
             WHEN 'test-again' THEN version IS NOT NULL OR trialId IS NOT NULL OR panelId IS NULL
             ELSE true END`,
  },
  {
    code: 'decision-on-unclosed',
    find: `SELECT d.id, p.id AS panel, p.stage FROM Decision d JOIN Panel p ON p.id = d.panelId
           WHERE p.stage <> 'decided'`,
  },
  {
    code: 'adopted-not-frozen',
    find: `SELECT d.id, t.id AS trial FROM Decision d JOIN Trial t ON t.id = d.trialId
           WHERE d.kind = 'adopt' AND t.frozenAt IS NULL`,
  },
  {
    code: 'adopted-not-served',
    find: `SELECT id, trialId AS trial FROM Decision d WHERE kind = 'adopt' AND panelId IS NOT NULL
             AND NOT EXISTS (SELECT 1 FROM Cup c WHERE c.panelId = d.panelId AND c.trialId = d.trialId)`,
  },
  unbroken({ code: 'home-sheet-versions', table: 'HomeSheet', parent: 'recipeId', number: 'version' }),
  {
    code: 'home-sheet-half-withdrawn',
    find: `SELECT id FROM HomeSheet WHERE (withdrawnAt IS NULL) <> (withdrawnById IS NULL)`,
  },
  {
    code: 'home-answer-off-the-scale',
    find: `SELECT id, liking FROM HomeAnswer WHERE liking IS NOT NULL AND liking NOT BETWEEN 1 AND 9`,
  },
  {
    code: 'home-answer-from-nowhere',
    find: `SELECT id, source FROM HomeAnswer
           WHERE source NOT IN ('link', 'pasted', 'paper') OR (source = 'link') <> (enteredById IS NULL)`,
  },
] as const satisfies readonly Rule[]
