-- AlterTable
ALTER TABLE "Clinic" ADD COLUMN "afterHours" TEXT;
ALTER TABLE "Clinic" ADD COLUMN "noAnswer" TEXT;

-- AlterTable
ALTER TABLE "Report" ADD COLUMN "movedAt" TEXT;
ALTER TABLE "Report" ADD COLUMN "movedBy" TEXT;
ALTER TABLE "Report" ADD COLUMN "movedFromId" TEXT;
ALTER TABLE "Report" ADD COLUMN "movedToId" TEXT;
ALTER TABLE "Report" ADD COLUMN "movedWhy" TEXT;

-- AlterTable
ALTER TABLE "StaffEvent" ADD COLUMN "withdrawnAt" TEXT;

-- CreateTable
CREATE TABLE "Admission" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "place" TEXT,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "endedAt" TEXT,
    "endedBy" TEXT,
    "confirmed" TEXT
);

-- CreateTable
CREATE TABLE "Preference" (
    "staffId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,

    PRIMARY KEY ("staffId", "name")
);

-- CreateTable
CREATE TABLE "Handover" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "givenBy" TEXT NOT NULL,
    "takenBy" TEXT,
    "givenAt" TEXT,
    "takenAt" TEXT,
    "body" TEXT,
    "note" TEXT,
    "withdrawnAt" TEXT,
    "withdrawnBy" TEXT
);

-- CreateTable
CREATE TABLE "HandoverRow" (
    "handoverId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "acceptedBy" TEXT NOT NULL,
    "acceptedAt" TEXT NOT NULL,

    PRIMARY KEY ("handoverId", "patientId"),
    CONSTRAINT "HandoverRow_handoverId_fkey" FOREIGN KEY ("handoverId") REFERENCES "Handover" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "OnCallShift" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT,
    "phone" TEXT,
    "rank" INTEGER NOT NULL,
    "from" TEXT NOT NULL,
    "until" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "removedAt" TEXT,
    "removedBy" TEXT
);

-- CreateTable
CREATE TABLE "Escalation" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT,
    "about" TEXT NOT NULL,
    "urgency" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "nextAt" TEXT,
    "haveItAt" TEXT,
    "haveItBy" TEXT,
    "endedAt" TEXT
);

-- CreateTable
CREATE TABLE "EscalationStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "escalationId" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "shiftId" TEXT,
    "channel" TEXT,
    "letterId" TEXT,
    "tokenHash" TEXT,
    "by" TEXT,
    "why" TEXT,
    CONSTRAINT "EscalationStep_escalationId_fkey" FOREIGN KEY ("escalationId") REFERENCES "Escalation" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Callback" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "outcome" TEXT NOT NULL,
    "spokenTo" TEXT,
    "direction" TEXT NOT NULL DEFAULT 'we-called',
    "contact" TEXT,
    "interpreter" BOOLEAN NOT NULL DEFAULT false,
    "teachBack" BOOLEAN,
    "corrects" TEXT,
    "undoneAt" TEXT,
    "undoneBy" TEXT,
    "why" TEXT,
    "before" TEXT,
    "agreed" TEXT NOT NULL,
    "closes" TEXT NOT NULL,
    "lookAgainAt" TEXT,
    "note" TEXT NOT NULL,
    CONSTRAINT "Callback_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Callback" ("agreed", "at", "clinicId", "closes", "id", "lookAgainAt", "note", "outcome", "patientId", "recordedAt", "recordedBy", "spokenTo") SELECT "agreed", "at", "clinicId", "closes", "id", "lookAgainAt", "note", "outcome", "patientId", "recordedAt", "recordedBy", "spokenTo" FROM "Callback";
DROP TABLE "Callback";
ALTER TABLE "new_Callback" RENAME TO "Callback";
CREATE UNIQUE INDEX "Callback_corrects_key" ON "Callback"("corrects");
CREATE INDEX "Callback_patientId_at_idx" ON "Callback"("patientId", "at");
CREATE INDEX "Callback_clinicId_at_idx" ON "Callback"("clinicId", "at");
CREATE TABLE "new_Hold" (
    "patientId" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "initials" TEXT NOT NULL DEFAULT '',
    "staffId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "takenAt" TEXT NOT NULL,
    "until" TEXT NOT NULL,
    CONSTRAINT "Hold_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Hold" ("clinicId", "name", "patientId", "staffId", "takenAt", "until") SELECT "clinicId", "name", "patientId", "staffId", "takenAt", "until" FROM "Hold";
DROP TABLE "Hold";
ALTER TABLE "new_Hold" RENAME TO "Hold";
CREATE INDEX "Hold_clinicId_until_idx" ON "Hold"("clinicId", "until");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "Admission_patientId_recordedAt_idx" ON "Admission"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "Admission_clinicId_endedAt_idx" ON "Admission"("clinicId", "endedAt");

-- CreateIndex
CREATE INDEX "Handover_clinicId_recordedAt_idx" ON "Handover"("clinicId", "recordedAt");

-- CreateIndex
CREATE INDEX "OnCallShift_clinicId_until_idx" ON "OnCallShift"("clinicId", "until");

-- CreateIndex
CREATE INDEX "Escalation_nextAt_idx" ON "Escalation"("nextAt");

-- CreateIndex
CREATE INDEX "Escalation_clinicId_endedAt_idx" ON "Escalation"("clinicId", "endedAt");

-- CreateIndex
CREATE INDEX "Escalation_patientId_idx" ON "Escalation"("patientId");

-- CreateIndex
CREATE INDEX "EscalationStep_escalationId_at_idx" ON "EscalationStep"("escalationId", "at");

-- CreateIndex
CREATE INDEX "EscalationStep_tokenHash_idx" ON "EscalationStep"("tokenHash");

-- CreateIndex
CREATE INDEX "Flag_clinicId_openedAt_idx" ON "Flag"("clinicId", "openedAt");

-- CreateIndex
CREATE INDEX "Flag_clinicId_lookAgainAt_idx" ON "Flag"("clinicId", "lookAgainAt");
