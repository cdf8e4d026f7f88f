-- AlterTable
ALTER TABLE "OutsideEvent" ADD COLUMN "withdrawnWhy" TEXT;
