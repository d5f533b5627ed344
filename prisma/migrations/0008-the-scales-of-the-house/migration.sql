-- AlterTable
ALTER TABLE "Cafe" ADD COLUMN "doseScaleMg" INTEGER;
ALTER TABLE "Cafe" ADD COLUMN "doseScaleName" TEXT;
ALTER TABLE "Cafe" ADD COLUMN "pourScaleMg" INTEGER;
ALTER TABLE "Cafe" ADD COLUMN "pourScaleName" TEXT;

-- AlterTable
ALTER TABLE "Recipe" ADD COLUMN "sizeCoffeeBp" INTEGER;
ALTER TABLE "Recipe" ADD COLUMN "sizeIceBp" INTEGER;
