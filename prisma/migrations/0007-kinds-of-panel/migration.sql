-- AlterTable
ALTER TABLE "Ingredient" ADD COLUMN "alcoholBp" INTEGER;
ALTER TABLE "Ingredient" ADD COLUMN "shelfAt" DATETIME;
ALTER TABLE "Ingredient" ADD COLUMN "shelfMg" INTEGER;

-- AlterTable
ALTER TABLE "PreparationBatch" ADD COLUMN "shelfAt" DATETIME;
ALTER TABLE "PreparationBatch" ADD COLUMN "shelfMg" INTEGER;

-- AlterTable
ALTER TABLE "OpenedPack" ADD COLUMN "key" TEXT;

-- CreateTable
CREATE TABLE "ServingSet" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "seatId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "lockedAt" DATETIME,
    "skippedAt" DATETIME,
    "skipReason" TEXT,
    "skipSource" TEXT,
    CONSTRAINT "ServingSet_seatId_fkey" FOREIGN KEY ("seatId") REFERENCES "Seat" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SetAnswer" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "setId" TEXT NOT NULL,
    "attributeId" TEXT NOT NULL,
    "answer" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "enteredById" TEXT,
    "at" DATETIME NOT NULL,
    CONSTRAINT "SetAnswer_setId_fkey" FOREIGN KEY ("setId") REFERENCES "ServingSet" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "SetAnswer_attributeId_fkey" FOREIGN KEY ("attributeId") REFERENCES "PanelAttribute" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "UncountedAnswer" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "setId" TEXT NOT NULL,
    "attributeId" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "answer" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "enteredById" TEXT,
    "at" DATETIME NOT NULL,
    "uncountedAt" DATETIME NOT NULL,
    "uncountedById" TEXT,
    CONSTRAINT "UncountedAnswer_setId_fkey" FOREIGN KEY ("setId") REFERENCES "ServingSet" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Panel" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "recipeId" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "publicTitle" TEXT NOT NULL,
    "question" TEXT NOT NULL,
    "stage" TEXT NOT NULL,
    "kind" TEXT NOT NULL DEFAULT 'liking',
    "design" TEXT,
    "aim" TEXT,
    "primaryKind" TEXT NOT NULL,
    "primaryTrialAId" TEXT,
    "primaryTrialBId" TEXT,
    "smallestDifference" INTEGER NOT NULL DEFAULT 10,
    "notWorseMargin" INTEGER,
    "seatCount" INTEGER NOT NULL,
    "cupsPerTaster" INTEGER,
    "sampleMl" INTEGER,
    "seenThrough" TEXT,
    "nothingSeen" BOOLEAN NOT NULL DEFAULT false,
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
    "calledOffAt" DATETIME,
    "calledOffById" TEXT,
    "closingAnswer" TEXT,
    "closingAnswerAt" DATETIME,
    "closingAnswerHow" TEXT,
    CONSTRAINT "Panel_cafeId_fkey" FOREIGN KEY ("cafeId") REFERENCES "Cafe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Panel_recipeId_fkey" FOREIGN KEY ("recipeId") REFERENCES "Recipe" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Panel_copiedFromId_fkey" FOREIGN KEY ("copiedFromId") REFERENCES "Panel" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Panel" ("aim", "cafeId", "calledOffAt", "calledOffById", "closedAt", "closedById", "closingAnswer", "closingAnswerAt", "closingAnswerHow", "copiedFromId", "createdAt", "createdById", "cupsPerTaster", "id", "isDemo", "joinToken", "notWorseMargin", "nothingSeen", "openedAt", "openedById", "orderSeed", "primaryKind", "primaryTrialAId", "primaryTrialBId", "publicTitle", "question", "recipeId", "sampleMl", "seatCount", "seenThrough", "smallestDifference", "stage", "title") SELECT "aim", "cafeId", "calledOffAt", "calledOffById", "closedAt", "closedById", "closingAnswer", "closingAnswerAt", "closingAnswerHow", "copiedFromId", "createdAt", "createdById", "cupsPerTaster", "id", "isDemo", "joinToken", "notWorseMargin", "nothingSeen", "openedAt", "openedById", "orderSeed", "primaryKind", "primaryTrialAId", "primaryTrialBId", "publicTitle", "question", "recipeId", "sampleMl", "seatCount", "seenThrough", "smallestDifference", "stage", "title" FROM "Panel";
DROP TABLE "Panel";
ALTER TABLE "new_Panel" RENAME TO "Panel";
CREATE UNIQUE INDEX "Panel_joinToken_key" ON "Panel"("joinToken");
CREATE INDEX "Panel_cafeId_recipeId_idx" ON "Panel"("cafeId", "recipeId");
CREATE INDEX "Panel_cafeId_stage_idx" ON "Panel"("cafeId", "stage");
CREATE INDEX "Panel_recipeId_idx" ON "Panel"("recipeId");
CREATE INDEX "Panel_copiedFromId_idx" ON "Panel"("copiedFromId");
CREATE TABLE "new_PanelAttribute" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "about" TEXT NOT NULL DEFAULT 'serving',
    "options" TEXT,
    CONSTRAINT "PanelAttribute_panelId_fkey" FOREIGN KEY ("panelId") REFERENCES "Panel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_PanelAttribute" ("cafeId", "id", "kind", "name", "panelId", "position") SELECT "cafeId", "id", "kind", "name", "panelId", "position" FROM "PanelAttribute";
DROP TABLE "PanelAttribute";
ALTER TABLE "new_PanelAttribute" RENAME TO "PanelAttribute";
CREATE INDEX "PanelAttribute_panelId_idx" ON "PanelAttribute"("panelId");
CREATE UNIQUE INDEX "PanelAttribute_cafeId_panelId_position_key" ON "PanelAttribute"("cafeId", "panelId", "position");
CREATE TABLE "new_Serving" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "seatId" TEXT NOT NULL,
    "cupId" TEXT NOT NULL,
    "setId" TEXT,
    "pouring" INTEGER NOT NULL DEFAULT 1,
    "position" INTEGER NOT NULL,
    "code" TEXT NOT NULL,
    "pouredAt" DATETIME,
    "codeSeenAt" DATETIME,
    "lockedAt" DATETIME,
    "skippedAt" DATETIME,
    "skipReason" TEXT,
    "skipSource" TEXT,
    "comment" TEXT,
    "commentSource" TEXT,
    "commentRevision" INTEGER NOT NULL DEFAULT 0,
    "commentAt" DATETIME,
    CONSTRAINT "Serving_seatId_fkey" FOREIGN KEY ("seatId") REFERENCES "Seat" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Serving_cupId_fkey" FOREIGN KEY ("cupId") REFERENCES "Cup" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Serving_setId_fkey" FOREIGN KEY ("setId") REFERENCES "ServingSet" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Serving" ("cafeId", "code", "codeSeenAt", "comment", "commentAt", "commentRevision", "commentSource", "cupId", "id", "lockedAt", "panelId", "position", "pouredAt", "seatId", "skipReason", "skipSource", "skippedAt") SELECT "cafeId", "code", "codeSeenAt", "comment", "commentAt", "commentRevision", "commentSource", "cupId", "id", "lockedAt", "panelId", "position", "pouredAt", "seatId", "skipReason", "skipSource", "skippedAt" FROM "Serving";
DROP TABLE "Serving";
ALTER TABLE "new_Serving" RENAME TO "Serving";
CREATE INDEX "Serving_cafeId_panelId_idx" ON "Serving"("cafeId", "panelId");
CREATE INDEX "Serving_seatId_idx" ON "Serving"("seatId");
CREATE INDEX "Serving_cupId_idx" ON "Serving"("cupId");
CREATE INDEX "Serving_setId_idx" ON "Serving"("setId");
CREATE UNIQUE INDEX "Serving_cafeId_seatId_position_key" ON "Serving"("cafeId", "seatId", "position");
CREATE UNIQUE INDEX "Serving_cafeId_seatId_cupId_pouring_key" ON "Serving"("cafeId", "seatId", "cupId", "pouring");
CREATE UNIQUE INDEX "Serving_cafeId_seatId_code_key" ON "Serving"("cafeId", "seatId", "code");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "ServingSet_cafeId_panelId_idx" ON "ServingSet"("cafeId", "panelId");

-- CreateIndex
CREATE INDEX "ServingSet_seatId_idx" ON "ServingSet"("seatId");

-- CreateIndex
CREATE UNIQUE INDEX "ServingSet_cafeId_seatId_number_key" ON "ServingSet"("cafeId", "seatId", "number");

-- CreateIndex
CREATE INDEX "SetAnswer_setId_idx" ON "SetAnswer"("setId");

-- CreateIndex
CREATE INDEX "SetAnswer_attributeId_idx" ON "SetAnswer"("attributeId");

-- CreateIndex
CREATE UNIQUE INDEX "SetAnswer_cafeId_setId_attributeId_key" ON "SetAnswer"("cafeId", "setId", "attributeId");

-- CreateIndex
CREATE INDEX "UncountedAnswer_setId_idx" ON "UncountedAnswer"("setId");

-- CreateIndex
CREATE UNIQUE INDEX "UncountedAnswer_cafeId_setId_attributeId_why_key_key" ON "UncountedAnswer"("cafeId", "setId", "attributeId", "why", "key");

-- CreateIndex
CREATE UNIQUE INDEX "OpenedPack_cafeId_key_key" ON "OpenedPack"("cafeId", "key");
