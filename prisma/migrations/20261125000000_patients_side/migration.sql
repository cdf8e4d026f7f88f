-- AlterTable
ALTER TABLE "Clinic" ADD COLUMN "hours" TEXT;
ALTER TABLE "Clinic" ADD COLUMN "quiet" TEXT;

-- AlterTable
ALTER TABLE "Drain" ADD COLUMN "lengthMarkCm" REAL;

-- AlterTable
ALTER TABLE "Patient" ADD COLUMN "followUpEnd" TEXT;
ALTER TABLE "Patient" ADD COLUMN "profile" TEXT;

-- AlterTable
ALTER TABLE "PatientState" ADD COLUMN "lookAgainWhy" TEXT;
ALTER TABLE "PatientState" ADD COLUMN "nextReminderAt" TEXT;
ALTER TABLE "PatientState" ADD COLUMN "readAt" TEXT;

-- AlterTable
ALTER TABLE "Report" ADD COLUMN "linkId" TEXT;
ALTER TABLE "Report" ADD COLUMN "sentBy" TEXT;

-- CreateTable
CREATE TABLE "PatientVersion" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    CONSTRAINT "PatientVersion_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Discharge" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "birthDate" TEXT NOT NULL,
    "recordNumber" TEXT NOT NULL,
    "phone" TEXT,
    "dischargedAt" TEXT NOT NULL,
    "drainKind" TEXT,
    "note" TEXT,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "settledAt" TEXT,
    "settledBy" TEXT,
    "settledWhy" TEXT,
    "patientId" TEXT
);

-- CreateTable
CREATE TABLE "OrderTemplate" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "body" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "AdviceText" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "language" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "approvedAt" TEXT,
    "approvedBy" TEXT,
    "readBy" TEXT
);

-- CreateTable
CREATE TABLE "Visit" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "bookedFor" TEXT,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    CONSTRAINT "Visit_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "VisitStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "visitId" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "bookedFor" TEXT,
    "why" TEXT,
    CONSTRAINT "VisitStep_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "FollowUpStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "step" TEXT NOT NULL,
    "reason" TEXT,
    "why" TEXT,
    CONSTRAINT "FollowUpStep_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Reminder" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "dueAt" TEXT NOT NULL,
    "channel" TEXT NOT NULL,
    "letterId" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    CONSTRAINT "Reminder_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "RenewalCode" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "codeHash" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "expiresAt" TEXT NOT NULL,
    "usedAt" TEXT,
    "tries" INTEGER NOT NULL DEFAULT 0
);

-- CreateTable
CREATE TABLE "ImportedFile" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "fileHash" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "lines" INTEGER NOT NULL,
    "added" INTEGER NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL
);

-- What orders said of a booked exchange becomes a booked visit, with its step.
INSERT INTO "Visit" ("id", "clinicId", "patientId", "drainId", "kind", "state", "bookedFor", "recordedAt", "recordedBy")
SELECT lower(hex(randomblob(16))), c."clinicId", c."patientId", c."drainId", 'exchange', 'booked', c."exchangeBookedFor", c."recordedAt", c."recordedBy"
FROM "CarePlan" c
WHERE c."exchangeBookedFor" IS NOT NULL
  AND c."version" = (SELECT MAX(n."version") FROM "CarePlan" n WHERE n."drainId" = c."drainId");
INSERT INTO "VisitStep" ("id", "clinicId", "patientId", "visitId", "recordedAt", "recordedBy", "state", "bookedFor", "why")
SELECT lower(hex(randomblob(16))), "clinicId", "patientId", "id", "recordedAt", "recordedBy", 'booked', "bookedFor", NULL FROM "Visit";

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_CarePlan" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "validFrom" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "why" TEXT,
    "course" TEXT,
    "drainage" TEXT,
    "bagCapacityMl" REAL,
    "markMl" REAL,
    "vessel" TEXT,
    "logEveryHours" REAL NOT NULL,
    "dressingEveryHours" REAL NOT NULL,
    "flushVolumeMl" REAL,
    "flushEveryHours" REAL,
    "exchangeEveryDays" REAL,
    "flushAt" TEXT,
    "dressingType" TEXT,
    "removalPlan" TEXT,
    "overrides" TEXT,
    CONSTRAINT "CarePlan_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "CarePlan_drainId_fkey" FOREIGN KEY ("drainId") REFERENCES "Drain" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_CarePlan" ("bagCapacityMl", "clinicId", "course", "drainId", "drainage", "dressingEveryHours", "exchangeEveryDays", "flushEveryHours", "flushVolumeMl", "id", "logEveryHours", "markMl", "overrides", "patientId", "recordedAt", "recordedBy", "validFrom", "version", "why") SELECT "bagCapacityMl", "clinicId", "course", "drainId", "drainage", "dressingEveryHours", "exchangeEveryDays", "flushEveryHours", "flushVolumeMl", "id", "logEveryHours", "markMl", "overrides", "patientId", "recordedAt", "recordedBy", "validFrom", "version", "why" FROM "CarePlan";
DROP TABLE "CarePlan";
ALTER TABLE "new_CarePlan" RENAME TO "CarePlan";
CREATE INDEX "CarePlan_patientId_recordedAt_idx" ON "CarePlan"("patientId", "recordedAt");
CREATE UNIQUE INDEX "CarePlan_drainId_version_key" ON "CarePlan"("drainId", "version");
CREATE TABLE "new_PatientLink" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "holder" TEXT NOT NULL DEFAULT 'patient',
    "holderName" TEXT,
    "maySee" BOOLEAN NOT NULL DEFAULT true,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "expiresAt" TEXT NOT NULL,
    "renewedAt" TEXT,
    "openedAt" TEXT,
    "revokedAt" TEXT,
    "revokedBy" TEXT,
    CONSTRAINT "PatientLink_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_PatientLink" ("clinicId", "expiresAt", "id", "patientId", "recordedAt", "recordedBy", "revokedAt", "revokedBy", "tokenHash") SELECT "clinicId", "expiresAt", "id", "patientId", "recordedAt", "recordedBy", "revokedAt", "revokedBy", "tokenHash" FROM "PatientLink";
DROP TABLE "PatientLink";
ALTER TABLE "new_PatientLink" RENAME TO "PatientLink";
CREATE UNIQUE INDEX "PatientLink_tokenHash_key" ON "PatientLink"("tokenHash");
CREATE INDEX "PatientLink_patientId_idx" ON "PatientLink"("patientId");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE UNIQUE INDEX "PatientVersion_patientId_version_key" ON "PatientVersion"("patientId", "version");

-- CreateIndex
CREATE INDEX "Discharge_clinicId_settledAt_dischargedAt_idx" ON "Discharge"("clinicId", "settledAt", "dischargedAt");

-- CreateIndex
CREATE UNIQUE INDEX "Discharge_clinicId_recordNumber_dischargedAt_key" ON "Discharge"("clinicId", "recordNumber", "dischargedAt");

-- CreateIndex
CREATE UNIQUE INDEX "OrderTemplate_clinicId_kind_version_key" ON "OrderTemplate"("clinicId", "kind", "version");

-- CreateIndex
CREATE UNIQUE INDEX "AdviceText_clinicId_name_language_version_key" ON "AdviceText"("clinicId", "name", "language", "version");

-- CreateIndex
CREATE INDEX "Visit_patientId_idx" ON "Visit"("patientId");

-- CreateIndex
CREATE INDEX "Visit_clinicId_state_idx" ON "Visit"("clinicId", "state");

-- CreateIndex
CREATE INDEX "VisitStep_patientId_recordedAt_idx" ON "VisitStep"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "VisitStep_visitId_idx" ON "VisitStep"("visitId");

-- CreateIndex
CREATE INDEX "FollowUpStep_patientId_recordedAt_idx" ON "FollowUpStep"("patientId", "recordedAt");

-- CreateIndex
CREATE UNIQUE INDEX "Reminder_patientId_kind_dueAt_key" ON "Reminder"("patientId", "kind", "dueAt");

-- CreateIndex
CREATE INDEX "RenewalCode_patientId_expiresAt_idx" ON "RenewalCode"("patientId", "expiresAt");

-- CreateIndex
CREATE UNIQUE INDEX "ImportedFile_clinicId_fileHash_key" ON "ImportedFile"("clinicId", "fileHash");

-- CreateIndex
CREATE INDEX "Patient_clinicId_birthDate_idx" ON "Patient"("clinicId", "birthDate");

-- CreateIndex
CREATE INDEX "PatientState_nextReminderAt_idx" ON "PatientState"("nextReminderAt");
