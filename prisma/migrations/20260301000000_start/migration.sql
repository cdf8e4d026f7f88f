-- CreateTable
CREATE TABLE "Clinic" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "timeZone" TEXT NOT NULL,
    "phone" TEXT NOT NULL,
    "afterHoursPhone" TEXT,
    "demo" BOOLEAN NOT NULL DEFAULT false,
    "recordedAt" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "Staff" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "emailVerified" BOOLEAN NOT NULL DEFAULT false,
    "image" TEXT,
    "role" TEXT NOT NULL,
    "disabledAt" DATETIME,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "Staff_clinicId_fkey" FOREIGN KEY ("clinicId") REFERENCES "Clinic" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Session" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "userId" TEXT NOT NULL,
    "token" TEXT NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "ipAddress" TEXT,
    "userAgent" TEXT,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "Session_userId_fkey" FOREIGN KEY ("userId") REFERENCES "Staff" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Account" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "userId" TEXT NOT NULL,
    "accountId" TEXT NOT NULL,
    "providerId" TEXT NOT NULL,
    "accessToken" TEXT,
    "refreshToken" TEXT,
    "idToken" TEXT,
    "accessTokenExpiresAt" DATETIME,
    "refreshTokenExpiresAt" DATETIME,
    "scope" TEXT,
    "password" TEXT,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "Account_userId_fkey" FOREIGN KEY ("userId") REFERENCES "Staff" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Verification" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "identifier" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP
);

-- CreateTable
CREATE TABLE "RateLimit" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "key" TEXT NOT NULL,
    "count" INTEGER NOT NULL,
    "lastRequest" BIGINT NOT NULL
);

-- CreateTable
CREATE TABLE "Patient" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "birthDate" TEXT NOT NULL,
    "recordNumber" TEXT NOT NULL,
    "phone" TEXT,
    "timeZone" TEXT NOT NULL,
    "language" TEXT,
    "interpreter" BOOLEAN NOT NULL DEFAULT false,
    "enrolledAt" TEXT NOT NULL,
    "usual" TEXT,
    "followUpEndedAt" TEXT,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    CONSTRAINT "Patient_clinicId_fkey" FOREIGN KEY ("clinicId") REFERENCES "Clinic" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Drain" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "label" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "side" TEXT,
    "frenchSize" REAL,
    "placedAt" TEXT NOT NULL,
    "cappedAt" TEXT,
    "onlyKidney" BOOLEAN NOT NULL DEFAULT false,
    "usualMlPerDay" REAL,
    "usualAppearance" TEXT,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    CONSTRAINT "Drain_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "CarePlan" (
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
    "exchangeBookedFor" TEXT,
    "logEveryHours" REAL NOT NULL,
    "dressingEveryHours" REAL NOT NULL,
    "flushVolumeMl" REAL,
    "flushEveryHours" REAL,
    "exchangeEveryDays" REAL,
    "overrides" TEXT,
    CONSTRAINT "CarePlan_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "CarePlan_drainId_fkey" FOREIGN KEY ("drainId") REFERENCES "Drain" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PatientLink" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "expiresAt" TEXT NOT NULL,
    "revokedAt" TEXT,
    "revokedBy" TEXT,
    CONSTRAINT "PatientLink_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "CheckInSession" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "linkId" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "expiresAt" TEXT NOT NULL,
    CONSTRAINT "CheckInSession_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "CheckInSession_linkId_fkey" FOREIGN KEY ("linkId") REFERENCES "PatientLink" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SendingSystem" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "keyHash" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "revokedAt" TEXT,
    CONSTRAINT "SendingSystem_clinicId_fkey" FOREIGN KEY ("clinicId") REFERENCES "Clinic" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Report" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "receivedAt" TEXT NOT NULL,
    "timeZone" TEXT NOT NULL,
    "door" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "reporter" TEXT NOT NULL,
    "enteredBy" TEXT,
    "key" TEXT NOT NULL,
    "bodyHash" TEXT NOT NULL,
    "receiptCode" TEXT NOT NULL,
    "receipt" TEXT NOT NULL,
    "supersedesId" TEXT,
    "note" TEXT,
    CONSTRAINT "Report_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Report_supersedesId_fkey" FOREIGN KEY ("supersedesId") REFERENCES "Report" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Reading" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT NOT NULL,
    "reportId" TEXT NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "at" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "volumeMl" REAL,
    "appearance" TEXT,
    "total" BOOLEAN NOT NULL DEFAULT false,
    "confirmed" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "Reading_reportId_fkey" FOREIGN KEY ("reportId") REFERENCES "Report" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Flush" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT NOT NULL,
    "reportId" TEXT NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "at" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "volumeMl" REAL,
    "ease" TEXT,
    CONSTRAINT "Flush_reportId_fkey" FOREIGN KEY ("reportId") REFERENCES "Report" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "DressingChange" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT NOT NULL,
    "reportId" TEXT NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "at" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "found" TEXT,
    "skin" TEXT,
    "changed" BOOLEAN,
    CONSTRAINT "DressingChange_reportId_fkey" FOREIGN KEY ("reportId") REFERENCES "Report" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Symptoms" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "reportId" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "temperatureC" REAL,
    "chills" BOOLEAN,
    "pain" REAL,
    "general" TEXT,
    CONSTRAINT "Symptoms_reportId_fkey" FOREIGN KEY ("reportId") REFERENCES "Report" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "DrainSymptoms" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT NOT NULL,
    "symptomsId" TEXT NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "position" TEXT,
    "leak" BOOLEAN,
    "draining" BOOLEAN,
    CONSTRAINT "DrainSymptoms_symptomsId_fkey" FOREIGN KEY ("symptomsId") REFERENCES "Symptoms" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "StaffEvent" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT,
    "at" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "type" TEXT NOT NULL,
    "code" TEXT,
    "note" TEXT,
    "callbackId" TEXT,
    CONSTRAINT "StaffEvent_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StaffEvent_callbackId_fkey" FOREIGN KEY ("callbackId") REFERENCES "Callback" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Flag" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "drainId" TEXT,
    "code" TEXT NOT NULL,
    "nature" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "urgency" TEXT NOT NULL,
    "since" TEXT NOT NULL,
    "actBy" TEXT NOT NULL,
    "openedAt" TEXT NOT NULL,
    "finding" TEXT NOT NULL,
    "closedAt" TEXT,
    "closedBy" TEXT,
    "closedFinding" TEXT,
    "holdsStill" BOOLEAN NOT NULL DEFAULT true,
    "endedAt" TEXT,
    "lookAgainAt" TEXT,
    "spokenAt" TEXT,
    "changedAt" TEXT NOT NULL,
    CONSTRAINT "Flag_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "FlagStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "flagId" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "by" TEXT,
    "why" TEXT NOT NULL,
    "urgency" TEXT NOT NULL,
    CONSTRAINT "FlagStep_flagId_fkey" FOREIGN KEY ("flagId") REFERENCES "Flag" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Callback" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "outcome" TEXT NOT NULL,
    "spokenTo" TEXT,
    "agreed" TEXT NOT NULL,
    "closes" TEXT NOT NULL,
    "lookAgainAt" TEXT,
    "note" TEXT NOT NULL,
    CONSTRAINT "Callback_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Hold" (
    "patientId" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "staffId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "takenAt" TEXT NOT NULL,
    "until" TEXT NOT NULL,
    CONSTRAINT "Hold_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PatientState" (
    "patientId" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "assessedAt" TEXT NOT NULL,
    "ruleSet" TEXT NOT NULL,
    "urgency" TEXT NOT NULL,
    "assessment" TEXT NOT NULL,
    "drains" TEXT NOT NULL,
    "nextCheckAt" TEXT,
    "lookAgainAt" TEXT,
    "lastHeardAt" TEXT,
    "lastHeardFrom" TEXT,
    "lastSpokenAt" TEXT,
    "attempts" TEXT NOT NULL DEFAULT '[]',
    "failures" INTEGER NOT NULL DEFAULT 0,
    "lastError" TEXT,
    "unreadable" TEXT NOT NULL DEFAULT '[]',
    "troubled" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "PatientState_patientId_fkey" FOREIGN KEY ("patientId") REFERENCES "Patient" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "AccessRecord" (
    "clinicId" TEXT NOT NULL,
    "seq" INTEGER NOT NULL,
    "at" TEXT NOT NULL,
    "staffId" TEXT,
    "actor" TEXT NOT NULL,
    "role" TEXT,
    "action" TEXT NOT NULL,
    "patientId" TEXT,
    "what" TEXT NOT NULL,
    "previousHash" TEXT NOT NULL,
    "hash" TEXT NOT NULL,

    PRIMARY KEY ("clinicId", "seq")
);

-- CreateTable
CREATE TABLE "RuleSet" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "version" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "inForceFrom" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "recordedBy" TEXT NOT NULL,
    "why" TEXT,
    CONSTRAINT "RuleSet_clinicId_fkey" FOREIGN KEY ("clinicId") REFERENCES "Clinic" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Outbox" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "clinicId" TEXT NOT NULL,
    "patientId" TEXT,
    "kind" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    "notBefore" TEXT NOT NULL,
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "sentAt" TEXT,
    "givenUpAt" TEXT,
    "lastError" TEXT
);

-- CreateTable
CREATE TABLE "Answered" (
    "clinicId" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "bodyHash" TEXT NOT NULL,
    "answer" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,

    PRIMARY KEY ("clinicId", "source", "key")
);

-- CreateTable
CREATE TABLE "Lease" (
    "name" TEXT NOT NULL PRIMARY KEY,
    "holder" TEXT NOT NULL,
    "until" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "Fact" (
    "name" TEXT NOT NULL PRIMARY KEY,
    "value" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL
);

-- CreateIndex
CREATE UNIQUE INDEX "Staff_email_key" ON "Staff"("email");

-- CreateIndex
CREATE INDEX "Staff_clinicId_idx" ON "Staff"("clinicId");

-- CreateIndex
CREATE UNIQUE INDEX "Session_token_key" ON "Session"("token");

-- CreateIndex
CREATE INDEX "Session_userId_idx" ON "Session"("userId");

-- CreateIndex
CREATE INDEX "Session_expiresAt_idx" ON "Session"("expiresAt");

-- CreateIndex
CREATE INDEX "Account_userId_idx" ON "Account"("userId");

-- CreateIndex
CREATE INDEX "Verification_identifier_idx" ON "Verification"("identifier");

-- CreateIndex
CREATE UNIQUE INDEX "RateLimit_key_key" ON "RateLimit"("key");

-- CreateIndex
CREATE INDEX "Patient_clinicId_followUpEndedAt_idx" ON "Patient"("clinicId", "followUpEndedAt");

-- CreateIndex
CREATE UNIQUE INDEX "Patient_clinicId_recordNumber_key" ON "Patient"("clinicId", "recordNumber");

-- CreateIndex
CREATE INDEX "Drain_patientId_idx" ON "Drain"("patientId");

-- CreateIndex
CREATE INDEX "CarePlan_patientId_recordedAt_idx" ON "CarePlan"("patientId", "recordedAt");

-- CreateIndex
CREATE UNIQUE INDEX "CarePlan_drainId_version_key" ON "CarePlan"("drainId", "version");

-- CreateIndex
CREATE UNIQUE INDEX "PatientLink_tokenHash_key" ON "PatientLink"("tokenHash");

-- CreateIndex
CREATE INDEX "PatientLink_patientId_idx" ON "PatientLink"("patientId");

-- CreateIndex
CREATE UNIQUE INDEX "CheckInSession_hash_key" ON "CheckInSession"("hash");

-- CreateIndex
CREATE INDEX "CheckInSession_linkId_idx" ON "CheckInSession"("linkId");

-- CreateIndex
CREATE INDEX "CheckInSession_expiresAt_idx" ON "CheckInSession"("expiresAt");

-- CreateIndex
CREATE UNIQUE INDEX "SendingSystem_keyHash_key" ON "SendingSystem"("keyHash");

-- CreateIndex
CREATE INDEX "SendingSystem_clinicId_idx" ON "SendingSystem"("clinicId");

-- CreateIndex
CREATE UNIQUE INDEX "Report_receiptCode_key" ON "Report"("receiptCode");

-- CreateIndex
CREATE INDEX "Report_patientId_receivedAt_idx" ON "Report"("patientId", "receivedAt");

-- CreateIndex
CREATE INDEX "Report_supersedesId_idx" ON "Report"("supersedesId");

-- CreateIndex
CREATE UNIQUE INDEX "Report_clinicId_source_key_key" ON "Report"("clinicId", "source", "key");

-- CreateIndex
CREATE INDEX "Reading_patientId_recordedAt_idx" ON "Reading"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "Reading_reportId_idx" ON "Reading"("reportId");

-- CreateIndex
CREATE INDEX "Flush_patientId_recordedAt_idx" ON "Flush"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "Flush_reportId_idx" ON "Flush"("reportId");

-- CreateIndex
CREATE INDEX "DressingChange_patientId_recordedAt_idx" ON "DressingChange"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "DressingChange_reportId_idx" ON "DressingChange"("reportId");

-- CreateIndex
CREATE UNIQUE INDEX "Symptoms_reportId_key" ON "Symptoms"("reportId");

-- CreateIndex
CREATE INDEX "Symptoms_patientId_recordedAt_idx" ON "Symptoms"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "DrainSymptoms_patientId_recordedAt_idx" ON "DrainSymptoms"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "DrainSymptoms_symptomsId_idx" ON "DrainSymptoms"("symptomsId");

-- CreateIndex
CREATE INDEX "StaffEvent_patientId_recordedAt_idx" ON "StaffEvent"("patientId", "recordedAt");

-- CreateIndex
CREATE INDEX "StaffEvent_callbackId_idx" ON "StaffEvent"("callbackId");

-- CreateIndex
CREATE INDEX "Flag_patientId_state_idx" ON "Flag"("patientId", "state");

-- CreateIndex
CREATE INDEX "Flag_clinicId_state_idx" ON "Flag"("clinicId", "state");

-- CreateIndex
CREATE INDEX "Flag_patientId_openedAt_idx" ON "Flag"("patientId", "openedAt");

-- CreateIndex
CREATE INDEX "FlagStep_patientId_at_idx" ON "FlagStep"("patientId", "at");

-- CreateIndex
CREATE INDEX "FlagStep_flagId_idx" ON "FlagStep"("flagId");

-- CreateIndex
CREATE INDEX "Callback_patientId_at_idx" ON "Callback"("patientId", "at");

-- CreateIndex
CREATE INDEX "Hold_clinicId_until_idx" ON "Hold"("clinicId", "until");

-- CreateIndex
CREATE INDEX "PatientState_nextCheckAt_idx" ON "PatientState"("nextCheckAt");

-- CreateIndex
CREATE INDEX "PatientState_clinicId_troubled_idx" ON "PatientState"("clinicId", "troubled");

-- CreateIndex
CREATE INDEX "PatientState_clinicId_lookAgainAt_idx" ON "PatientState"("clinicId", "lookAgainAt");

-- CreateIndex
CREATE INDEX "PatientState_clinicId_lastHeardAt_idx" ON "PatientState"("clinicId", "lastHeardAt");

-- CreateIndex
CREATE INDEX "AccessRecord_clinicId_patientId_seq_idx" ON "AccessRecord"("clinicId", "patientId", "seq");

-- CreateIndex
CREATE INDEX "AccessRecord_clinicId_staffId_seq_idx" ON "AccessRecord"("clinicId", "staffId", "seq");

-- CreateIndex
CREATE INDEX "RuleSet_clinicId_inForceFrom_idx" ON "RuleSet"("clinicId", "inForceFrom");

-- CreateIndex
CREATE UNIQUE INDEX "RuleSet_clinicId_version_key" ON "RuleSet"("clinicId", "version");

-- CreateIndex
CREATE INDEX "Outbox_sentAt_givenUpAt_notBefore_idx" ON "Outbox"("sentAt", "givenUpAt", "notBefore");

-- CreateIndex
CREATE INDEX "Outbox_clinicId_recordedAt_idx" ON "Outbox"("clinicId", "recordedAt");
