-- Work handed over at a change of shift: a code that one person shows, and that another took it, once.
CREATE TABLE "hand_over" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "code_hash" BYTEA NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "hand_over_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "hand_over_taken" (
    "lab_id" UUID NOT NULL,
    "hand_over_id" UUID NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "hand_over_taken_pkey" PRIMARY KEY ("lab_id","hand_over_id")
);

CREATE UNIQUE INDEX "hand_over_lab_id_code_hash_key" ON "hand_over"("lab_id", "code_hash");
CREATE INDEX "hand_over_lab_id_by_id_written_at_idx" ON "hand_over"("lab_id", "by_id", "written_at");

ALTER TABLE "hand_over" ADD CONSTRAINT "hand_over_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "hand_over_taken" ADD CONSTRAINT "hand_over_taken_lab_id_hand_over_id_fkey" FOREIGN KEY ("lab_id", "hand_over_id") REFERENCES "hand_over"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "hand_over_taken" ADD CONSTRAINT "hand_over_taken_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table hand_over add constraint hand_over_code_hash_length check (octet_length(code_hash) = 32);
select guard_append_only('hand_over');
select guard_staff_only('hand_over');
select guard_append_only('hand_over_taken');
select guard_staff_only('hand_over_taken');
