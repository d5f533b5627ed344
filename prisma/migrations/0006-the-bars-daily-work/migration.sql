-- AlterTable
ALTER TABLE "Preparation" ADD COLUMN "pumpUl" INTEGER;
ALTER TABLE "Preparation" ADD COLUMN "spoonMg" INTEGER;

-- AlterTable
ALTER TABLE "Weighing" ADD COLUMN "brew" TEXT;
ALTER TABLE "Weighing" ADD COLUMN "within" BOOLEAN;

-- CreateTable
CREATE TABLE "PreparationFormula" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "preparationId" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "targetMg" INTEGER,
    "brixHundredths" INTEGER,
    "retentionMilli" INTEGER,
    "storageDeciC" INTEGER,
    "keepsHours" INTEGER,
    "steps" TEXT,
    "note" TEXT,
    "createdAt" DATETIME NOT NULL,
    "createdById" TEXT,
    CONSTRAINT "PreparationFormula_preparationId_fkey" FOREIGN KEY ("preparationId") REFERENCES "Preparation" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "FormulaInput" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "formulaId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "ingredientId" TEXT,
    "preparationId" TEXT,
    "amountMg" INTEGER NOT NULL,
    "typed" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "microdensity" INTEGER,
    "temperatureDeciC" INTEGER,
    "isStrainedOut" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "FormulaInput_formulaId_fkey" FOREIGN KEY ("formulaId") REFERENCES "PreparationFormula" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "FormulaInput_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "FormulaInput_preparationId_fkey" FOREIGN KEY ("preparationId") REFERENCES "Preparation" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "CoolingReading" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "batchId" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "deciC" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "byId" TEXT,
    "struckAt" DATETIME,
    "struckById" TEXT,
    CONSTRAINT "CoolingReading_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "PreparationBatch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "OpenedPack" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "ingredientId" TEXT NOT NULL,
    "mark" TEXT,
    "openedAt" DATETIME NOT NULL,
    "openedById" TEXT,
    "discardAt" DATETIME,
    "doneAt" DATETIME,
    "doneById" TEXT,
    CONSTRAINT "OpenedPack_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SizePrice" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "recipeId" TEXT NOT NULL,
    "vesselId" TEXT NOT NULL,
    "priceMinor" INTEGER NOT NULL,
    "changedAt" DATETIME NOT NULL,
    "changedById" TEXT,
    CONSTRAINT "SizePrice_recipeId_fkey" FOREIGN KEY ("recipeId") REFERENCES "Recipe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "SizePrice_vesselId_fkey" FOREIGN KEY ("vesselId") REFERENCES "Vessel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "BenchNote" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "trialId" TEXT NOT NULL,
    "minutes" INTEGER,
    "sweet" INTEGER,
    "strong" INTEGER,
    "body" INTEGER,
    "text" TEXT,
    "at" DATETIME NOT NULL,
    "createdById" TEXT,
    CONSTRAINT "BenchNote_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Photo" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "recipeId" TEXT,
    "trialId" TEXT,
    "type" TEXT NOT NULL,
    "bytes" BLOB,
    "width" INTEGER NOT NULL,
    "height" INTEGER NOT NULL,
    "caption" TEXT,
    "createdAt" DATETIME NOT NULL,
    "createdById" TEXT,
    "removedAt" DATETIME,
    "removedById" TEXT,
    CONSTRAINT "Photo_recipeId_fkey" FOREIGN KEY ("recipeId") REFERENCES "Recipe" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Photo_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "HomeSheet" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "recipeId" TEXT NOT NULL,
    "trialId" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "sheet" TEXT NOT NULL,
    "tokenHash" TEXT,
    "mark" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "createdById" TEXT,
    "withdrawnAt" DATETIME,
    "withdrawnById" TEXT,
    CONSTRAINT "HomeSheet_recipeId_fkey" FOREIGN KEY ("recipeId") REFERENCES "Recipe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "HomeSheet_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "HomeAnswer" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "homeSheetId" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "name" TEXT,
    "changed" TEXT,
    "liking" INTEGER,
    "text" TEXT,
    "source" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "enteredById" TEXT,
    CONSTRAINT "HomeAnswer_homeSheetId_fkey" FOREIGN KEY ("homeSheetId") REFERENCES "HomeSheet" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "UpstreamChange" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "ingredientId" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "before" TEXT,
    "after" TEXT,
    "at" DATETIME NOT NULL,
    "byId" TEXT,
    "lookedAt" DATETIME,
    "lookedById" TEXT,
    CONSTRAINT "UpstreamChange_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Cafe" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "currency" TEXT NOT NULL DEFAULT 'EUR',
    "currencyDigits" INTEGER NOT NULL DEFAULT 2,
    "timeZone" TEXT NOT NULL DEFAULT 'UTC',
    "allergenList" TEXT NOT NULL DEFAULT 'eu',
    "nameDays" INTEGER,
    "hearsBack" BOOLEAN NOT NULL DEFAULT false,
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    "createdAt" DATETIME NOT NULL
);
INSERT INTO "new_Cafe" ("allergenList", "createdAt", "currency", "currencyDigits", "id", "isDemo", "name", "nameDays", "timeZone") SELECT "allergenList", "createdAt", "currency", "currencyDigits", "id", "isDemo", "name", "nameDays", "timeZone" FROM "Cafe";
DROP TABLE "Cafe";
ALTER TABLE "new_Cafe" RENAME TO "Cafe";
CREATE TABLE "new_Ingredient" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "form" TEXT NOT NULL DEFAULT 'liquid',
    "microdensity" INTEGER,
    "brixHundredths" INTEGER,
    "sugarsMg" INTEGER,
    "freeSugarsMg" INTEGER,
    "fatMg" INTEGER,
    "proteinMg" INTEGER,
    "energyDecikcal" INTEGER,
    "waterMg" INTEGER,
    "solidsMg" INTEGER,
    "caffeineLowMg100g" INTEGER,
    "caffeineHighMg100g" INTEGER,
    "sweetnessPercent" INTEGER,
    "isMilkOrPlantDrink" BOOLEAN NOT NULL DEFAULT false,
    "keepsColdNote" TEXT,
    "densityIsAssumed" BOOLEAN NOT NULL DEFAULT false,
    "pumpUl" INTEGER,
    "spoonMg" INTEGER,
    "openHours" INTEGER,
    "supplier" TEXT,
    "figuresSource" TEXT,
    "figuresDate" DATETIME,
    "labelReadAt" DATETIME,
    "labelReadById" TEXT,
    "note" TEXT,
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    "createdAt" DATETIME NOT NULL,
    "archivedAt" DATETIME,
    CONSTRAINT "Ingredient_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Ingredient" ("archivedAt", "brixHundredths", "cafeId", "caffeineHighMg100g", "caffeineLowMg100g", "createdAt", "energyDecikcal", "fatMg", "figuresDate", "figuresSource", "form", "freeSugarsMg", "id", "isDemo", "isMilkOrPlantDrink", "keepsColdNote", "kind", "labelReadAt", "labelReadById", "microdensity", "name", "note", "proteinMg", "solidsMg", "sugarsMg", "sweetnessPercent", "waterMg") SELECT "archivedAt", "brixHundredths", "cafeId", "caffeineHighMg100g", "caffeineLowMg100g", "createdAt", "energyDecikcal", "fatMg", "figuresDate", "figuresSource", "form", "freeSugarsMg", "id", "isDemo", "isMilkOrPlantDrink", "keepsColdNote", "kind", "labelReadAt", "labelReadById", "microdensity", "name", "note", "proteinMg", "solidsMg", "sugarsMg", "sweetnessPercent", "waterMg" FROM "Ingredient";
DROP TABLE "Ingredient";
ALTER TABLE "new_Ingredient" RENAME TO "Ingredient";
CREATE UNIQUE INDEX "Ingredient_cafeId_name_key" ON "Ingredient"("cafeId", "name");
CREATE TABLE "new_PreparationBatch" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "preparationId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "formulaId" TEXT,
    "outputMg" INTEGER,
    "brixHundredths" INTEGER,
    "solidsHundredths" INTEGER,
    "retentionMilli" INTEGER,
    "microdensity" INTEGER,
    "madeAt" DATETIME,
    "discardAt" DATETIME,
    "madeById" TEXT,
    "steps" TEXT,
    "note" TEXT,
    "frozenAt" DATETIME,
    "createdAt" DATETIME NOT NULL,
    "archivedAt" DATETIME,
    CONSTRAINT "PreparationBatch_preparationId_fkey" FOREIGN KEY ("preparationId") REFERENCES "Preparation" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "PreparationBatch_formulaId_fkey" FOREIGN KEY ("formulaId") REFERENCES "PreparationFormula" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_PreparationBatch" ("archivedAt", "brixHundredths", "cafeId", "createdAt", "discardAt", "frozenAt", "id", "madeAt", "madeById", "microdensity", "note", "number", "outputMg", "preparationId", "retentionMilli", "solidsHundredths", "steps") SELECT "archivedAt", "brixHundredths", "cafeId", "createdAt", "discardAt", "frozenAt", "id", "madeAt", "madeById", "microdensity", "note", "number", "outputMg", "preparationId", "retentionMilli", "solidsHundredths", "steps" FROM "PreparationBatch";
DROP TABLE "PreparationBatch";
ALTER TABLE "new_PreparationBatch" RENAME TO "PreparationBatch";
CREATE INDEX "PreparationBatch_preparationId_idx" ON "PreparationBatch"("preparationId");
CREATE INDEX "PreparationBatch_formulaId_idx" ON "PreparationBatch"("formulaId");
CREATE UNIQUE INDEX "PreparationBatch_cafeId_preparationId_number_key" ON "PreparationBatch"("cafeId", "preparationId", "number");
CREATE TABLE "new_BatchInput" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "batchId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "ingredientId" TEXT,
    "inputBatchId" TEXT,
    "amountMg" INTEGER NOT NULL,
    "typed" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "microdensity" INTEGER,
    "temperatureDeciC" INTEGER,
    "isStrainedOut" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "BatchInput_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "PreparationBatch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "BatchInput_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "BatchInput_inputBatchId_fkey" FOREIGN KEY ("inputBatchId") REFERENCES "PreparationBatch" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_BatchInput" ("amountMg", "batchId", "cafeId", "id", "ingredientId", "inputBatchId", "microdensity", "position", "temperatureDeciC", "typed", "unit") SELECT "amountMg", "batchId", "cafeId", "id", "ingredientId", "inputBatchId", "microdensity", "position", "temperatureDeciC", "typed", "unit" FROM "BatchInput";
DROP TABLE "BatchInput";
ALTER TABLE "new_BatchInput" RENAME TO "BatchInput";
CREATE INDEX "BatchInput_batchId_idx" ON "BatchInput"("batchId");
CREATE INDEX "BatchInput_ingredientId_idx" ON "BatchInput"("ingredientId");
CREATE INDEX "BatchInput_inputBatchId_idx" ON "BatchInput"("inputBatchId");
CREATE UNIQUE INDEX "BatchInput_cafeId_batchId_position_key" ON "BatchInput"("cafeId", "batchId", "position");
CREATE TABLE "new_Recipe" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "note" TEXT,
    "priceMinor" INTEGER,
    "taxBp" INTEGER,
    "targetCostBp" INTEGER,
    "wasteBp" INTEGER NOT NULL DEFAULT 0,
    "packMinor" INTEGER NOT NULL DEFAULT 0,
    "fixedMinor" INTEGER,
    "roomDeciC" INTEGER,
    "copiedFromId" TEXT,
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    "createdAt" DATETIME NOT NULL,
    "archivedAt" DATETIME,
    CONSTRAINT "Recipe_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Recipe_copiedFromId_fkey" FOREIGN KEY ("copiedFromId") REFERENCES "Recipe" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Recipe" ("archivedAt", "cafeId", "createdAt", "fixedMinor", "id", "isDemo", "name", "note", "packMinor", "priceMinor", "roomDeciC", "targetCostBp", "taxBp", "wasteBp") SELECT "archivedAt", "cafeId", "createdAt", "fixedMinor", "id", "isDemo", "name", "note", "packMinor", "priceMinor", "roomDeciC", "targetCostBp", "taxBp", "wasteBp" FROM "Recipe";
DROP TABLE "Recipe";
ALTER TABLE "new_Recipe" RENAME TO "Recipe";
CREATE INDEX "Recipe_copiedFromId_idx" ON "Recipe"("copiedFromId");
CREATE UNIQUE INDEX "Recipe_cafeId_name_key" ON "Recipe"("cafeId", "name");
CREATE TABLE "new_TrialLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "trialId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "role" TEXT NOT NULL,
    "ingredientId" TEXT,
    "batchId" TEXT,
    "preparationId" TEXT,
    "targetMg" INTEGER NOT NULL,
    "typed" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "microdensity" INTEGER,
    "weighedMg" INTEGER,
    "toleranceMg" INTEGER,
    "temperatureDeciC" INTEGER,
    "grind" TEXT,
    "note" TEXT,
    CONSTRAINT "TrialLine_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "TrialLine_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "TrialLine_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "PreparationBatch" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "TrialLine_preparationId_fkey" FOREIGN KEY ("preparationId") REFERENCES "Preparation" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_TrialLine" ("batchId", "cafeId", "grind", "id", "ingredientId", "microdensity", "note", "position", "role", "targetMg", "temperatureDeciC", "toleranceMg", "trialId", "typed", "unit", "weighedMg") SELECT "batchId", "cafeId", "grind", "id", "ingredientId", "microdensity", "note", "position", "role", "targetMg", "temperatureDeciC", "toleranceMg", "trialId", "typed", "unit", "weighedMg" FROM "TrialLine";
DROP TABLE "TrialLine";
ALTER TABLE "new_TrialLine" RENAME TO "TrialLine";
CREATE INDEX "TrialLine_trialId_idx" ON "TrialLine"("trialId");
CREATE INDEX "TrialLine_ingredientId_idx" ON "TrialLine"("ingredientId");
CREATE INDEX "TrialLine_batchId_idx" ON "TrialLine"("batchId");
CREATE INDEX "TrialLine_preparationId_idx" ON "TrialLine"("preparationId");
CREATE UNIQUE INDEX "TrialLine_cafeId_trialId_position_key" ON "TrialLine"("cafeId", "trialId", "position");
CREATE TABLE "new_LineAlternative" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "lineId" TEXT NOT NULL,
    "costLevelId" TEXT NOT NULL,
    "ingredientId" TEXT,
    "batchId" TEXT,
    "preparationId" TEXT,
    CONSTRAINT "LineAlternative_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "TrialLine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LineAlternative_costLevelId_fkey" FOREIGN KEY ("costLevelId") REFERENCES "CostLevel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LineAlternative_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "LineAlternative_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "PreparationBatch" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "LineAlternative_preparationId_fkey" FOREIGN KEY ("preparationId") REFERENCES "Preparation" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_LineAlternative" ("batchId", "cafeId", "costLevelId", "id", "ingredientId", "lineId") SELECT "batchId", "cafeId", "costLevelId", "id", "ingredientId", "lineId" FROM "LineAlternative";
DROP TABLE "LineAlternative";
ALTER TABLE "new_LineAlternative" RENAME TO "LineAlternative";
CREATE INDEX "LineAlternative_lineId_idx" ON "LineAlternative"("lineId");
CREATE INDEX "LineAlternative_costLevelId_idx" ON "LineAlternative"("costLevelId");
CREATE INDEX "LineAlternative_ingredientId_idx" ON "LineAlternative"("ingredientId");
CREATE INDEX "LineAlternative_batchId_idx" ON "LineAlternative"("batchId");
CREATE INDEX "LineAlternative_preparationId_idx" ON "LineAlternative"("preparationId");
CREATE UNIQUE INDEX "LineAlternative_cafeId_lineId_costLevelId_key" ON "LineAlternative"("cafeId", "lineId", "costLevelId");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "PreparationFormula_preparationId_idx" ON "PreparationFormula"("preparationId");

-- CreateIndex
CREATE UNIQUE INDEX "PreparationFormula_cafeId_preparationId_version_key" ON "PreparationFormula"("cafeId", "preparationId", "version");

-- CreateIndex
CREATE INDEX "FormulaInput_formulaId_idx" ON "FormulaInput"("formulaId");

-- CreateIndex
CREATE INDEX "FormulaInput_ingredientId_idx" ON "FormulaInput"("ingredientId");

-- CreateIndex
CREATE INDEX "FormulaInput_preparationId_idx" ON "FormulaInput"("preparationId");

-- CreateIndex
CREATE UNIQUE INDEX "FormulaInput_cafeId_formulaId_position_key" ON "FormulaInput"("cafeId", "formulaId", "position");

-- CreateIndex
CREATE INDEX "CoolingReading_batchId_idx" ON "CoolingReading"("batchId");

-- CreateIndex
CREATE UNIQUE INDEX "CoolingReading_cafeId_key_key" ON "CoolingReading"("cafeId", "key");

-- CreateIndex
CREATE INDEX "OpenedPack_cafeId_doneAt_idx" ON "OpenedPack"("cafeId", "doneAt");

-- CreateIndex
CREATE INDEX "OpenedPack_ingredientId_idx" ON "OpenedPack"("ingredientId");

-- CreateIndex
CREATE INDEX "SizePrice_recipeId_idx" ON "SizePrice"("recipeId");

-- CreateIndex
CREATE INDEX "SizePrice_vesselId_idx" ON "SizePrice"("vesselId");

-- CreateIndex
CREATE UNIQUE INDEX "SizePrice_cafeId_recipeId_vesselId_key" ON "SizePrice"("cafeId", "recipeId", "vesselId");

-- CreateIndex
CREATE INDEX "BenchNote_cafeId_trialId_at_idx" ON "BenchNote"("cafeId", "trialId", "at");

-- CreateIndex
CREATE INDEX "BenchNote_trialId_idx" ON "BenchNote"("trialId");

-- CreateIndex
CREATE INDEX "Photo_recipeId_idx" ON "Photo"("recipeId");

-- CreateIndex
CREATE INDEX "Photo_trialId_idx" ON "Photo"("trialId");

-- CreateIndex
CREATE UNIQUE INDEX "HomeSheet_tokenHash_key" ON "HomeSheet"("tokenHash");

-- CreateIndex
CREATE INDEX "HomeSheet_recipeId_idx" ON "HomeSheet"("recipeId");

-- CreateIndex
CREATE INDEX "HomeSheet_trialId_idx" ON "HomeSheet"("trialId");

-- CreateIndex
CREATE UNIQUE INDEX "HomeSheet_cafeId_mark_key" ON "HomeSheet"("cafeId", "mark");

-- CreateIndex
CREATE UNIQUE INDEX "HomeSheet_cafeId_recipeId_version_key" ON "HomeSheet"("cafeId", "recipeId", "version");

-- CreateIndex
CREATE INDEX "HomeAnswer_homeSheetId_idx" ON "HomeAnswer"("homeSheetId");

-- CreateIndex
CREATE UNIQUE INDEX "HomeAnswer_cafeId_homeSheetId_key_key" ON "HomeAnswer"("cafeId", "homeSheetId", "key");

-- CreateIndex
CREATE INDEX "UpstreamChange_cafeId_lookedAt_idx" ON "UpstreamChange"("cafeId", "lookedAt");

-- CreateIndex
CREATE INDEX "UpstreamChange_ingredientId_idx" ON "UpstreamChange"("ingredientId");
