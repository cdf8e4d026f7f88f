-- AlterTable
ALTER TABLE "Callback" ADD COLUMN "asked" TEXT;

-- AlterTable
ALTER TABLE "CarePlan" ADD COLUMN "withdrawnAt" TEXT;
ALTER TABLE "CarePlan" ADD COLUMN "withdrawnBy" TEXT;

-- AlterTable
ALTER TABLE "Flag" ADD COLUMN "ruleSet" TEXT;

-- AlterTable
ALTER TABLE "RuleSet" ADD COLUMN "draftId" TEXT;

-- AlterTable
ALTER TABLE "StaffEvent" ADD COLUMN "withdrawnBy" TEXT;

-- CreateTable
CREATE TABLE "PatientNote" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "undoneAt" TEXT,
    "undoneBy" TEXT
);

-- CreateTable
CREATE TABLE "CallText" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "body" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "KindCourse" (
    "clinicId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,

    PRIMARY KEY ("clinicId", "kind")
);

-- CreateTable
CREATE TABLE "ReviewItem" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "week" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT,
    "flagId" TEXT,
    "at" TEXT NOT NULL,
    "stratum" TEXT NOT NULL,
    "probability" REAL NOT NULL,
    "twice" BOOLEAN NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "Review" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "itemId" TEXT NOT NULL,
    "reading" INTEGER NOT NULL,
    "verdict" TEXT NOT NULL,
    "truly" TEXT,
    "harm" TEXT NOT NULL,
    "note" TEXT,
    "isOpened" BOOLEAN NOT NULL DEFAULT false,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    CONSTRAINT "Review_itemId_fkey" FOREIGN KEY ("itemId") REFERENCES "ReviewItem" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "OutsideEvent" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT,
    "kind" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "note" TEXT,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "withdrawnAt" TEXT,
    "withdrawnBy" TEXT
);

-- CreateTable
CREATE TABLE "InquiryAnswer" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "about" TEXT NOT NULL,
    "answer" TEXT NOT NULL,
    "note" TEXT,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "PrimaryFigure" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "figure" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "why" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "RuleDraft" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "version" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "baseVersion" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "RuleDraftStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "draftId" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "step" TEXT NOT NULL,
    "body" TEXT,
    "replayId" TEXT,
    "why" TEXT,
    CONSTRAINT "RuleDraftStep_draftId_fkey" FOREIGN KEY ("draftId") REFERENCES "RuleDraft" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Replay" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "draftId" TEXT,
    "body" TEXT NOT NULL,
    "from" TEXT NOT NULL,
    "until" TEXT NOT NULL,
    "laterFrom" TEXT,
    "state" TEXT NOT NULL,
    "done" INTEGER NOT NULL DEFAULT 0,
    "total" INTEGER NOT NULL DEFAULT 0,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "startedAt" TEXT,
    "beatAt" TEXT,
    "endedAt" TEXT,
    "result" TEXT,
    "trouble" TEXT
);

-- CreateTable
CREATE TABLE "WeekMinutes" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "week" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "amends" TEXT,
    "why" TEXT,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL
);

-- CreateIndex
CREATE INDEX "PatientNote_patientId_recordedAt_idx" ON "PatientNote"("patientId", "recordedAt");

-- CreateIndex
CREATE UNIQUE INDEX "CallText_clinicId_code_version_key" ON "CallText"("clinicId", "code", "version");

-- CreateIndex
CREATE INDEX "ReviewItem_clinicId_week_idx" ON "ReviewItem"("clinicId", "week");

-- CreateIndex
CREATE INDEX "ReviewItem_flagId_idx" ON "ReviewItem"("flagId");

-- CreateIndex
CREATE UNIQUE INDEX "ReviewItem_clinicId_week_ordinal_key" ON "ReviewItem"("clinicId", "week", "ordinal");

-- CreateIndex
CREATE INDEX "Review_itemId_recordedAt_idx" ON "Review"("itemId", "recordedAt");

-- CreateIndex
CREATE INDEX "Review_clinicId_recordedAt_idx" ON "Review"("clinicId", "recordedAt");

-- CreateIndex
CREATE INDEX "OutsideEvent_patientId_at_idx" ON "OutsideEvent"("patientId", "at");

-- CreateIndex
CREATE INDEX "OutsideEvent_clinicId_at_idx" ON "OutsideEvent"("clinicId", "at");

-- CreateIndex
CREATE INDEX "InquiryAnswer_patientId_recordedAt_idx" ON "InquiryAnswer"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "InquiryAnswer_clinicId_recordedAt_idx" ON "InquiryAnswer"("clinicId", "recordedAt");

-- CreateIndex
CREATE INDEX "PrimaryFigure_clinicId_recordedAt_idx" ON "PrimaryFigure"("clinicId", "recordedAt");

-- CreateIndex
CREATE INDEX "RuleDraft_clinicId_recordedAt_idx" ON "RuleDraft"("clinicId", "recordedAt");

-- CreateIndex
CREATE UNIQUE INDEX "RuleDraft_clinicId_version_key" ON "RuleDraft"("clinicId", "version");

-- CreateIndex
CREATE INDEX "RuleDraftStep_draftId_recordedAt_idx" ON "RuleDraftStep"("draftId", "recordedAt");

-- CreateIndex
CREATE INDEX "Replay_clinicId_recordedAt_idx" ON "Replay"("clinicId", "recordedAt");

-- CreateIndex
CREATE INDEX "Replay_state_idx" ON "Replay"("state");

-- CreateIndex
CREATE INDEX "WeekMinutes_clinicId_week_idx" ON "WeekMinutes"("clinicId", "week");
