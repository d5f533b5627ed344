-- AlterTable
ALTER TABLE "Panel" ADD COLUMN "closingAnswer" TEXT;
ALTER TABLE "Panel" ADD COLUMN "closingAnswerAt" DATETIME;
ALTER TABLE "Panel" ADD COLUMN "closingAnswerHow" TEXT;

-- AlterTable
ALTER TABLE "Seat" ADD COLUMN "barredAt" DATETIME;
ALTER TABLE "Seat" ADD COLUMN "barredWhy" TEXT;
ALTER TABLE "Seat" ADD COLUMN "memberId" TEXT;

-- AlterTable
ALTER TABLE "Serving" ADD COLUMN "commentSource" TEXT;
ALTER TABLE "Serving" ADD COLUMN "skipSource" TEXT;

-- CreateTable
CREATE TABLE "ReplacedAnswer" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "servingId" TEXT NOT NULL,
    "attributeId" TEXT,
    "value" INTEGER,
    "comment" TEXT,
    "skipReason" TEXT,
    "revision" INTEGER NOT NULL,
    "source" TEXT NOT NULL,
    "enteredById" TEXT,
    "at" DATETIME,
    "replacedAt" DATETIME NOT NULL,
    "replacedById" TEXT,
    CONSTRAINT "ReplacedAnswer_servingId_fkey" FOREIGN KEY ("servingId") REFERENCES "Serving" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_IngredientPrice" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "ingredientId" TEXT NOT NULL,
    "packMg" INTEGER NOT NULL,
    "packTyped" TEXT NOT NULL,
    "packUnit" TEXT NOT NULL,
    "priceMinor" INTEGER NOT NULL,
    "usableBp" INTEGER NOT NULL DEFAULT 10000,
    "since" DATETIME NOT NULL,
    "day" TEXT NOT NULL DEFAULT '',
    "note" TEXT,
    "createdAt" DATETIME NOT NULL,
    "createdById" TEXT,
    "struckAt" DATETIME,
    "struckById" TEXT,
    CONSTRAINT "IngredientPrice_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_IngredientPrice" ("cafeId", "createdAt", "createdById", "id", "ingredientId", "note", "packMg", "packTyped", "packUnit", "priceMinor", "since", "usableBp") SELECT "cafeId", "createdAt", "createdById", "id", "ingredientId", "note", "packMg", "packTyped", "packUnit", "priceMinor", "since", "usableBp" FROM "IngredientPrice";
DROP TABLE "IngredientPrice";
ALTER TABLE "new_IngredientPrice" RENAME TO "IngredientPrice";
CREATE INDEX "IngredientPrice_cafeId_ingredientId_since_idx" ON "IngredientPrice"("cafeId", "ingredientId", "since");
CREATE INDEX "IngredientPrice_ingredientId_idx" ON "IngredientPrice"("ingredientId");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "ReplacedAnswer_servingId_idx" ON "ReplacedAnswer"("servingId");

-- CreateIndex
CREATE INDEX "Membership_userId_idx" ON "Membership"("userId");

-- CreateIndex
CREATE INDEX "IngredientAllergen_ingredientId_idx" ON "IngredientAllergen"("ingredientId");

-- CreateIndex
CREATE INDEX "PreparationBatch_preparationId_idx" ON "PreparationBatch"("preparationId");

-- CreateIndex
CREATE INDEX "BatchInput_batchId_idx" ON "BatchInput"("batchId");

-- CreateIndex
CREATE INDEX "BatchInput_ingredientId_idx" ON "BatchInput"("ingredientId");

-- CreateIndex
CREATE INDEX "BatchInput_inputBatchId_idx" ON "BatchInput"("inputBatchId");

-- CreateIndex
CREATE INDEX "Trial_recipeId_idx" ON "Trial"("recipeId");

-- CreateIndex
CREATE INDEX "Trial_parentId_idx" ON "Trial"("parentId");

-- CreateIndex
CREATE INDEX "Trial_vesselId_idx" ON "Trial"("vesselId");

-- CreateIndex
CREATE INDEX "Trial_costLevelId_idx" ON "Trial"("costLevelId");

-- CreateIndex
CREATE INDEX "TrialLine_trialId_idx" ON "TrialLine"("trialId");

-- CreateIndex
CREATE INDEX "TrialLine_ingredientId_idx" ON "TrialLine"("ingredientId");

-- CreateIndex
CREATE INDEX "TrialLine_batchId_idx" ON "TrialLine"("batchId");

-- CreateIndex
CREATE INDEX "TrialStep_trialId_idx" ON "TrialStep"("trialId");

-- CreateIndex
CREATE INDEX "TrialNote_trialId_idx" ON "TrialNote"("trialId");

-- CreateIndex
CREATE INDEX "Weighing_trialId_idx" ON "Weighing"("trialId");

-- CreateIndex
CREATE INDEX "CostLevel_recipeId_idx" ON "CostLevel"("recipeId");

-- CreateIndex
CREATE INDEX "LineAlternative_lineId_idx" ON "LineAlternative"("lineId");

-- CreateIndex
CREATE INDEX "LineAlternative_costLevelId_idx" ON "LineAlternative"("costLevelId");

-- CreateIndex
CREATE INDEX "LineAlternative_ingredientId_idx" ON "LineAlternative"("ingredientId");

-- CreateIndex
CREATE INDEX "LineAlternative_batchId_idx" ON "LineAlternative"("batchId");

-- CreateIndex
CREATE INDEX "Panel_recipeId_idx" ON "Panel"("recipeId");

-- CreateIndex
CREATE INDEX "Panel_copiedFromId_idx" ON "Panel"("copiedFromId");

-- CreateIndex
CREATE INDEX "PanelAttribute_panelId_idx" ON "PanelAttribute"("panelId");

-- CreateIndex
CREATE INDEX "Cup_panelId_idx" ON "Cup"("panelId");

-- CreateIndex
CREATE INDEX "Cup_trialId_idx" ON "Cup"("trialId");

-- CreateIndex
CREATE INDEX "Seat_panelId_idx" ON "Seat"("panelId");

-- CreateIndex
CREATE INDEX "Taster_panelId_idx" ON "Taster"("panelId");

-- CreateIndex
CREATE INDEX "Serving_seatId_idx" ON "Serving"("seatId");

-- CreateIndex
CREATE INDEX "Serving_cupId_idx" ON "Serving"("cupId");

-- CreateIndex
CREATE INDEX "Score_servingId_idx" ON "Score"("servingId");

-- CreateIndex
CREATE INDEX "Score_attributeId_idx" ON "Score"("attributeId");

-- CreateIndex
CREATE INDEX "LateScore_servingId_idx" ON "LateScore"("servingId");

-- CreateIndex
CREATE INDEX "ListOpening_panelId_idx" ON "ListOpening"("panelId");

-- CreateIndex
CREATE INDEX "PhoneTry_panelId_idx" ON "PhoneTry"("panelId");

-- CreateIndex
CREATE INDEX "Decision_panelId_idx" ON "Decision"("panelId");

-- CreateIndex
CREATE INDEX "Decision_recipeId_idx" ON "Decision"("recipeId");

-- CreateIndex
CREATE INDEX "Decision_trialId_idx" ON "Decision"("trialId");
