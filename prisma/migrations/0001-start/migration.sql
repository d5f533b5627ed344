-- CreateTable
CREATE TABLE "Cafe" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "currency" TEXT NOT NULL DEFAULT 'EUR',
    "currencyDigits" INTEGER NOT NULL DEFAULT 2,
    "timeZone" TEXT NOT NULL DEFAULT 'UTC',
    "allergenList" TEXT NOT NULL DEFAULT 'eu',
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    "createdAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "User" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "passwordHash" TEXT NOT NULL,
    "sessionVersion" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "Membership" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "removedAt" DATETIME,
    CONSTRAINT "Membership_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Membership_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "OneTimeLink" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT,
    "kind" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "role" TEXT,
    "email" TEXT,
    "createdAt" DATETIME NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "usedAt" DATETIME,
    "voidedAt" DATETIME,
    CONSTRAINT "OneTimeLink_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SignInBrake" (
    "email" TEXT NOT NULL PRIMARY KEY,
    "failures" INTEGER NOT NULL,
    "lastAt" DATETIME NOT NULL,
    "lockedUntil" DATETIME
);

-- CreateTable
CREATE TABLE "AuditRow" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "actorId" TEXT,
    "actorKind" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "subjectKind" TEXT NOT NULL,
    "subjectId" TEXT NOT NULL,
    "detail" TEXT,
    CONSTRAINT "AuditRow_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Ingredient" (
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

-- CreateTable
CREATE TABLE "IngredientAllergen" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "ingredientId" TEXT NOT NULL,
    "allergen" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    CONSTRAINT "IngredientAllergen_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "IngredientPrice" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "ingredientId" TEXT NOT NULL,
    "packMg" INTEGER NOT NULL,
    "packTyped" TEXT NOT NULL,
    "packUnit" TEXT NOT NULL,
    "priceMinor" INTEGER NOT NULL,
    "usableBp" INTEGER NOT NULL DEFAULT 10000,
    "since" DATETIME NOT NULL,
    "note" TEXT,
    "createdAt" DATETIME NOT NULL,
    "createdById" TEXT,
    CONSTRAINT "IngredientPrice_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Preparation" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "storageDeciC" INTEGER,
    "keepsHours" INTEGER,
    "note" TEXT,
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    "createdAt" DATETIME NOT NULL,
    "archivedAt" DATETIME,
    CONSTRAINT "Preparation_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PreparationBatch" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "preparationId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
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
    CONSTRAINT "PreparationBatch_preparationId_fkey" FOREIGN KEY ("preparationId") REFERENCES "Preparation" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "BatchInput" (
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
    CONSTRAINT "BatchInput_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "PreparationBatch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "BatchInput_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "BatchInput_inputBatchId_fkey" FOREIGN KEY ("inputBatchId") REFERENCES "PreparationBatch" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Vessel" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "brimUl" INTEGER NOT NULL,
    "fillUl" INTEGER,
    "packMinor" INTEGER,
    "isClear" BOOLEAN NOT NULL DEFAULT true,
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    "createdAt" DATETIME NOT NULL,
    "archivedAt" DATETIME,
    CONSTRAINT "Vessel_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Recipe" (
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
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    "createdAt" DATETIME NOT NULL,
    "archivedAt" DATETIME,
    CONSTRAINT "Recipe_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Trial" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "recipeId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "method" TEXT NOT NULL,
    "ratioKind" TEXT,
    "ratioMilli" INTEGER,
    "retentionMilli" INTEGER,
    "extractionBp" INTEGER,
    "strengthBp" INTEGER,
    "vesselId" TEXT,
    "coffeeDeciC" INTEGER,
    "iceDeciC" INTEGER,
    "iceIsWet" BOOLEAN NOT NULL DEFAULT false,
    "costLevelId" TEXT,
    "parentId" TEXT,
    "createdAt" DATETIME NOT NULL,
    "createdById" TEXT,
    "frozenAt" DATETIME,
    "frozenSheet" TEXT,
    "archivedAt" DATETIME,
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "Trial_recipeId_fkey" FOREIGN KEY ("recipeId") REFERENCES "Recipe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Trial_vesselId_fkey" FOREIGN KEY ("vesselId") REFERENCES "Vessel" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Trial_costLevelId_fkey" FOREIGN KEY ("costLevelId") REFERENCES "CostLevel" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Trial_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "Trial" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "TrialLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "trialId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "role" TEXT NOT NULL,
    "ingredientId" TEXT,
    "batchId" TEXT,
    "targetMg" INTEGER NOT NULL,
    "typed" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "microdensity" INTEGER,
    "weighedMg" INTEGER,
    "toleranceMg" INTEGER,
    "temperatureDeciC" INTEGER,
    "note" TEXT,
    CONSTRAINT "TrialLine_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "TrialLine_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "TrialLine_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "PreparationBatch" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "TrialStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "trialId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "seconds" INTEGER,
    CONSTRAINT "TrialStep_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "TrialNote" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "trialId" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "authorId" TEXT,
    CONSTRAINT "TrialNote_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Weighing" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "trialId" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "glasses" INTEGER NOT NULL,
    "weights" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "byId" TEXT,
    CONSTRAINT "Weighing_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "CostLevel" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "recipeId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    CONSTRAINT "CostLevel_recipeId_fkey" FOREIGN KEY ("recipeId") REFERENCES "Recipe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "LineAlternative" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "lineId" TEXT NOT NULL,
    "costLevelId" TEXT NOT NULL,
    "ingredientId" TEXT,
    "batchId" TEXT,
    CONSTRAINT "LineAlternative_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "TrialLine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LineAlternative_costLevelId_fkey" FOREIGN KEY ("costLevelId") REFERENCES "CostLevel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LineAlternative_ingredientId_fkey" FOREIGN KEY ("ingredientId") REFERENCES "Ingredient" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "LineAlternative_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "PreparationBatch" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Panel" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "recipeId" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "publicTitle" TEXT NOT NULL,
    "question" TEXT NOT NULL,
    "stage" TEXT NOT NULL,
    "primaryKind" TEXT NOT NULL,
    "primaryTrialAId" TEXT,
    "primaryTrialBId" TEXT,
    "smallestDifference" INTEGER NOT NULL DEFAULT 10,
    "notWorseMargin" INTEGER,
    "seatCount" INTEGER NOT NULL,
    "sampleMl" INTEGER,
    "seenThrough" TEXT,
    "joinToken" TEXT NOT NULL,
    "orderSeed" INTEGER,
    "copiedFromId" TEXT,
    "isDemo" BOOLEAN NOT NULL DEFAULT false,
    "createdAt" DATETIME NOT NULL,
    "createdById" TEXT,
    "openedAt" DATETIME,
    "openedById" TEXT,
    "closedAt" DATETIME,
    "closedById" TEXT,
    CONSTRAINT "Panel_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Panel_recipeId_fkey" FOREIGN KEY ("recipeId") REFERENCES "Recipe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Panel_copiedFromId_fkey" FOREIGN KEY ("copiedFromId") REFERENCES "Panel" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PanelAttribute" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    CONSTRAINT "PanelAttribute_panelId_fkey" FOREIGN KEY ("panelId") REFERENCES "Panel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Cup" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "trialId" TEXT NOT NULL,
    "place" INTEGER NOT NULL,
    "design" INTEGER,
    "jugLetter" TEXT,
    "isHouse" BOOLEAN NOT NULL DEFAULT false,
    "isDuplicate" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "Cup_panelId_fkey" FOREIGN KEY ("panelId") REFERENCES "Panel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Cup_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Seat" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "cardToken" TEXT NOT NULL,
    "browserHash" TEXT,
    "browserSince" DATETIME,
    "addedAt" DATETIME,
    "takenAt" DATETIME,
    "leftAt" DATETIME,
    "onPaper" BOOLEAN NOT NULL DEFAULT false,
    "repeatOfSeatId" TEXT,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "Seat_panelId_fkey" FOREIGN KEY ("panelId") REFERENCES "Panel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Taster" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "seatId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "consentAt" DATETIME NOT NULL,
    "cautionsAt" DATETIME NOT NULL,
    "declaredAt" DATETIME NOT NULL,
    CONSTRAINT "Taster_seatId_fkey" FOREIGN KEY ("seatId") REFERENCES "Seat" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Serving" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "seatId" TEXT NOT NULL,
    "cupId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "code" TEXT NOT NULL,
    "pouredAt" DATETIME,
    "codeSeenAt" DATETIME,
    "lockedAt" DATETIME,
    "skippedAt" DATETIME,
    "skipReason" TEXT,
    "comment" TEXT,
    "commentRevision" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Serving_seatId_fkey" FOREIGN KEY ("seatId") REFERENCES "Seat" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Serving_cupId_fkey" FOREIGN KEY ("cupId") REFERENCES "Cup" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Score" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "servingId" TEXT NOT NULL,
    "attributeId" TEXT NOT NULL,
    "value" INTEGER NOT NULL,
    "revision" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "enteredById" TEXT,
    "at" DATETIME NOT NULL,
    CONSTRAINT "Score_servingId_fkey" FOREIGN KEY ("servingId") REFERENCES "Serving" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Score_attributeId_fkey" FOREIGN KEY ("attributeId") REFERENCES "PanelAttribute" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "LateScore" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "servingId" TEXT NOT NULL,
    "attributeId" TEXT NOT NULL,
    "value" INTEGER NOT NULL,
    "revision" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    CONSTRAINT "LateScore_servingId_fkey" FOREIGN KEY ("servingId") REFERENCES "Serving" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ListOpening" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "list" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    CONSTRAINT "ListOpening_panelId_fkey" FOREIGN KEY ("panelId") REFERENCES "Panel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PhoneTry" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "token" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "reachedAt" DATETIME,
    CONSTRAINT "PhoneTry_panelId_fkey" FOREIGN KEY ("panelId") REFERENCES "Panel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Decision" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "recipeId" TEXT NOT NULL,
    "panelId" TEXT,
    "kind" TEXT NOT NULL,
    "trialId" TEXT,
    "version" INTEGER,
    "reason" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "byId" TEXT,
    CONSTRAINT "Decision_recipeId_fkey" FOREIGN KEY ("recipeId") REFERENCES "Recipe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Decision_panelId_fkey" FOREIGN KEY ("panelId") REFERENCES "Panel" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Decision_trialId_fkey" FOREIGN KEY ("trialId") REFERENCES "Trial" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "User_email_key" ON "User"("email");

-- CreateIndex
CREATE UNIQUE INDEX "Membership_cafeId_userId_key" ON "Membership"("cafeId", "userId");

-- CreateIndex
CREATE UNIQUE INDEX "OneTimeLink_tokenHash_key" ON "OneTimeLink"("tokenHash");

-- CreateIndex
CREATE INDEX "OneTimeLink_kind_idx" ON "OneTimeLink"("kind");

-- CreateIndex
CREATE INDEX "AuditRow_cafeId_subjectId_at_idx" ON "AuditRow"("cafeId", "subjectId", "at");

-- CreateIndex
CREATE INDEX "AuditRow_cafeId_at_idx" ON "AuditRow"("cafeId", "at");

-- CreateIndex
CREATE UNIQUE INDEX "Ingredient_cafeId_name_key" ON "Ingredient"("cafeId", "name");

-- CreateIndex
CREATE UNIQUE INDEX "IngredientAllergen_cafeId_ingredientId_allergen_key" ON "IngredientAllergen"("cafeId", "ingredientId", "allergen");

-- CreateIndex
CREATE INDEX "IngredientPrice_cafeId_ingredientId_since_idx" ON "IngredientPrice"("cafeId", "ingredientId", "since");

-- CreateIndex
CREATE UNIQUE INDEX "Preparation_cafeId_name_key" ON "Preparation"("cafeId", "name");

-- CreateIndex
CREATE UNIQUE INDEX "PreparationBatch_cafeId_preparationId_number_key" ON "PreparationBatch"("cafeId", "preparationId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "BatchInput_cafeId_batchId_position_key" ON "BatchInput"("cafeId", "batchId", "position");

-- CreateIndex
CREATE UNIQUE INDEX "Vessel_cafeId_name_key" ON "Vessel"("cafeId", "name");

-- CreateIndex
CREATE UNIQUE INDEX "Recipe_cafeId_name_key" ON "Recipe"("cafeId", "name");

-- CreateIndex
CREATE INDEX "Trial_cafeId_parentId_idx" ON "Trial"("cafeId", "parentId");

-- CreateIndex
CREATE UNIQUE INDEX "Trial_cafeId_recipeId_number_key" ON "Trial"("cafeId", "recipeId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "TrialLine_cafeId_trialId_position_key" ON "TrialLine"("cafeId", "trialId", "position");

-- CreateIndex
CREATE UNIQUE INDEX "TrialStep_cafeId_trialId_position_key" ON "TrialStep"("cafeId", "trialId", "position");

-- CreateIndex
CREATE INDEX "TrialNote_cafeId_trialId_at_idx" ON "TrialNote"("cafeId", "trialId", "at");

-- CreateIndex
CREATE UNIQUE INDEX "Weighing_cafeId_key_key" ON "Weighing"("cafeId", "key");

-- CreateIndex
CREATE UNIQUE INDEX "CostLevel_cafeId_recipeId_name_key" ON "CostLevel"("cafeId", "recipeId", "name");

-- CreateIndex
CREATE UNIQUE INDEX "LineAlternative_cafeId_lineId_costLevelId_key" ON "LineAlternative"("cafeId", "lineId", "costLevelId");

-- CreateIndex
CREATE UNIQUE INDEX "Panel_joinToken_key" ON "Panel"("joinToken");

-- CreateIndex
CREATE INDEX "Panel_cafeId_recipeId_idx" ON "Panel"("cafeId", "recipeId");

-- CreateIndex
CREATE INDEX "Panel_cafeId_stage_idx" ON "Panel"("cafeId", "stage");

-- CreateIndex
CREATE UNIQUE INDEX "PanelAttribute_cafeId_panelId_position_key" ON "PanelAttribute"("cafeId", "panelId", "position");

-- CreateIndex
CREATE UNIQUE INDEX "Cup_cafeId_panelId_place_key" ON "Cup"("cafeId", "panelId", "place");

-- CreateIndex
CREATE UNIQUE INDEX "Cup_cafeId_panelId_jugLetter_key" ON "Cup"("cafeId", "panelId", "jugLetter");

-- CreateIndex
CREATE UNIQUE INDEX "Seat_cardToken_key" ON "Seat"("cardToken");

-- CreateIndex
CREATE INDEX "Seat_browserHash_idx" ON "Seat"("browserHash");

-- CreateIndex
CREATE UNIQUE INDEX "Seat_cafeId_panelId_number_key" ON "Seat"("cafeId", "panelId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "Taster_seatId_key" ON "Taster"("seatId");

-- CreateIndex
CREATE INDEX "Serving_cafeId_panelId_idx" ON "Serving"("cafeId", "panelId");

-- CreateIndex
CREATE UNIQUE INDEX "Serving_cafeId_seatId_position_key" ON "Serving"("cafeId", "seatId", "position");

-- CreateIndex
CREATE UNIQUE INDEX "Serving_cafeId_seatId_cupId_key" ON "Serving"("cafeId", "seatId", "cupId");

-- CreateIndex
CREATE UNIQUE INDEX "Serving_cafeId_seatId_code_key" ON "Serving"("cafeId", "seatId", "code");

-- CreateIndex
CREATE UNIQUE INDEX "Score_cafeId_servingId_attributeId_key" ON "Score"("cafeId", "servingId", "attributeId");

-- CreateIndex
CREATE UNIQUE INDEX "LateScore_cafeId_servingId_attributeId_key_key" ON "LateScore"("cafeId", "servingId", "attributeId", "key");

-- CreateIndex
CREATE INDEX "ListOpening_cafeId_panelId_userId_idx" ON "ListOpening"("cafeId", "panelId", "userId");

-- CreateIndex
CREATE UNIQUE INDEX "PhoneTry_token_key" ON "PhoneTry"("token");

-- CreateIndex
CREATE INDEX "Decision_cafeId_recipeId_at_idx" ON "Decision"("cafeId", "recipeId", "at");

-- CreateIndex
CREATE UNIQUE INDEX "Decision_cafeId_recipeId_version_key" ON "Decision"("cafeId", "recipeId", "version");
