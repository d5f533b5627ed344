-- AlterTable
ALTER TABLE "Decision" ADD COLUMN "evidence" TEXT;

-- CreateTable
CREATE TABLE "ReadLink" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "createdById" TEXT,
    "withdrawnAt" DATETIME,
    "withdrawnById" TEXT,
    CONSTRAINT "ReadLink_panelId_fkey" FOREIGN KEY ("panelId") REFERENCES "Panel" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
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
INSERT INTO "new_Panel" ("cafeId", "closedAt", "closedById", "closingAnswer", "closingAnswerAt", "closingAnswerHow", "copiedFromId", "createdAt", "createdById", "id", "isDemo", "joinToken", "notWorseMargin", "openedAt", "openedById", "orderSeed", "primaryKind", "primaryTrialAId", "primaryTrialBId", "publicTitle", "question", "recipeId", "sampleMl", "seatCount", "seenThrough", "smallestDifference", "stage", "title") SELECT "cafeId", "closedAt", "closedById", "closingAnswer", "closingAnswerAt", "closingAnswerHow", "copiedFromId", "createdAt", "createdById", "id", "isDemo", "joinToken", "notWorseMargin", "openedAt", "openedById", "orderSeed", "primaryKind", "primaryTrialAId", "primaryTrialBId", "publicTitle", "question", "recipeId", "sampleMl", "seatCount", "seenThrough", "smallestDifference", "stage", "title" FROM "Panel";
DROP TABLE "Panel";
ALTER TABLE "new_Panel" RENAME TO "Panel";
CREATE UNIQUE INDEX "Panel_joinToken_key" ON "Panel"("joinToken");
CREATE INDEX "Panel_cafeId_recipeId_idx" ON "Panel"("cafeId", "recipeId");
CREATE INDEX "Panel_cafeId_stage_idx" ON "Panel"("cafeId", "stage");
CREATE INDEX "Panel_recipeId_idx" ON "Panel"("recipeId");
CREATE INDEX "Panel_copiedFromId_idx" ON "Panel"("copiedFromId");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE UNIQUE INDEX "ReadLink_tokenHash_key" ON "ReadLink"("tokenHash");

-- CreateIndex
CREATE INDEX "ReadLink_panelId_idx" ON "ReadLink"("panelId");
