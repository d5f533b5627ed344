-- AlterTable
ALTER TABLE "Cafe" ADD COLUMN "nameDays" INTEGER;

-- AlterTable
ALTER TABLE "Seat" ADD COLUMN "movedAt" DATETIME;
ALTER TABLE "Seat" ADD COLUMN "setAsideAt" DATETIME;
ALTER TABLE "Seat" ADD COLUMN "setAsideById" TEXT;
ALTER TABLE "Seat" ADD COLUMN "setAsideWhy" TEXT;

-- AlterTable
ALTER TABLE "Serving" ADD COLUMN "commentAt" DATETIME;

-- CreateTable
CREATE TABLE "Session" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "userId" TEXT NOT NULL,
    "browser" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    CONSTRAINT "Session_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_User" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "passwordHash" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "forgottenAt" DATETIME
);
INSERT INTO "new_User" ("createdAt", "email", "id", "name", "passwordHash") SELECT "createdAt", "email", "id", "name", "passwordHash" FROM "User";
DROP TABLE "User";
ALTER TABLE "new_User" RENAME TO "User";
CREATE UNIQUE INDEX "User_email_key" ON "User"("email");
CREATE TABLE "new_SignInBrake" (
    "email" TEXT NOT NULL,
    "asker" TEXT NOT NULL DEFAULT '',
    "failures" INTEGER NOT NULL,
    "lastAt" DATETIME NOT NULL,
    "lockedUntil" DATETIME,

    PRIMARY KEY ("email", "asker")
);
INSERT INTO "new_SignInBrake" ("email", "failures", "lastAt", "lockedUntil") SELECT "email", "failures", "lastAt", "lockedUntil" FROM "SignInBrake";
DROP TABLE "SignInBrake";
ALTER TABLE "new_SignInBrake" RENAME TO "SignInBrake";
CREATE INDEX "SignInBrake_lastAt_idx" ON "SignInBrake"("lastAt");
CREATE TABLE "new_Taster" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cafeId" TEXT NOT NULL,
    "panelId" TEXT NOT NULL,
    "seatId" TEXT NOT NULL,
    "name" TEXT,
    "forgottenAt" DATETIME,
    "consentAt" DATETIME NOT NULL,
    "cautionsAt" DATETIME NOT NULL,
    "declaredAt" DATETIME NOT NULL,
    CONSTRAINT "Taster_seatId_fkey" FOREIGN KEY ("seatId") REFERENCES "Seat" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Taster" ("cafeId", "cautionsAt", "consentAt", "declaredAt", "id", "name", "panelId", "seatId") SELECT "cafeId", "cautionsAt", "consentAt", "declaredAt", "id", "name", "panelId", "seatId" FROM "Taster";
DROP TABLE "Taster";
ALTER TABLE "new_Taster" RENAME TO "Taster";
CREATE UNIQUE INDEX "Taster_seatId_key" ON "Taster"("seatId");
CREATE INDEX "Taster_panelId_idx" ON "Taster"("panelId");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "Session_userId_idx" ON "Session"("userId");

-- CreateIndex
CREATE INDEX "Session_expiresAt_idx" ON "Session"("expiresAt");
