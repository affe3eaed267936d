-- Mail: what each person wants, what was written in the transaction that causes it, each attempt to send it, and the windows
-- that were told of, once each.
CREATE TABLE "mail_wish" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "by_id" UUID NOT NULL,
    "window_minutes" INTEGER,
    "notices" BOOLEAN NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "mail_wish_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "mail" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "to_id" UUID NOT NULL,
    "subject" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "useless_at" TIMESTAMPTZ(3),
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "mail_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "mail_attempt" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "mail_id" UUID NOT NULL,
    "outcome" TEXT NOT NULL,
    "error" TEXT,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "mail_attempt_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "mail_window" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "mail_id" UUID NOT NULL,
    "to_id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "step_key" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "closes_at" TIMESTAMPTZ(3) NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "mail_window_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE INDEX "mail_wish_lab_id_by_id_written_at_idx" ON "mail_wish"("lab_id", "by_id", "written_at");
CREATE INDEX "mail_attempt_lab_id_mail_id_idx" ON "mail_attempt"("lab_id", "mail_id");
CREATE UNIQUE INDEX "mail_window_lab_id_to_id_test_id_step_key_act_closes_at_key" ON "mail_window"("lab_id", "to_id", "test_id", "step_key", "act", "closes_at");

ALTER TABLE "mail_wish" ADD CONSTRAINT "mail_wish_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "mail" ADD CONSTRAINT "mail_lab_id_to_id_fkey" FOREIGN KEY ("lab_id", "to_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "mail_attempt" ADD CONSTRAINT "mail_attempt_lab_id_mail_id_fkey" FOREIGN KEY ("lab_id", "mail_id") REFERENCES "mail"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "mail_window" ADD CONSTRAINT "mail_window_lab_id_mail_id_fkey" FOREIGN KEY ("lab_id", "mail_id") REFERENCES "mail"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "mail_window" ADD CONSTRAINT "mail_window_lab_id_to_id_fkey" FOREIGN KEY ("lab_id", "to_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "mail_window" ADD CONSTRAINT "mail_window_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table mail_wish add constraint mail_wish_window_minutes_known check (window_minutes in (30, 60));
alter table mail_attempt add constraint mail_attempt_outcome_word check (outcome in ('sent', 'failed', 'dropped'));
select guard_append_only('mail_wish');
select guard_staff_only('mail_wish');
select guard_append_only('mail');
select guard_staff_only('mail');
select guard_append_only('mail_attempt');
select guard_staff_only('mail_attempt');
select guard_append_only('mail_window');
select guard_staff_only('mail_window');
