-- AlterTable
ALTER TABLE "Vessel" ADD COLUMN "leakMilli" INTEGER;

-- AlterTable
ALTER TABLE "Trial" ADD COLUMN "brewSeconds" INTEGER;
ALTER TABLE "Trial" ADD COLUMN "waterDeciC" INTEGER;

-- AlterTable
ALTER TABLE "TrialLine" ADD COLUMN "grind" TEXT;
