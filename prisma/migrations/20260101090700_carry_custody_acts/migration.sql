-- What an act of custody tells, what is left of an item, and what was found when a sample was received.
ALTER TABLE "custody_event" ADD COLUMN     "loss" DECIMAL,
ADD COLUMN     "loss_text" TEXT,
ADD COLUMN     "mass_text" TEXT,
ADD COLUMN     "offset_ms" BIGINT,
ADD COLUMN     "sent_at" TIMESTAMPTZ(3),
ADD COLUMN     "signed_for" TEXT,
ADD COLUMN     "temperature_text" TEXT,
ADD COLUMN     "time_note" TEXT;

ALTER TABLE "item" ADD COLUMN     "fraction" TEXT,
ADD COLUMN     "scalped" DECIMAL,
ADD COLUMN     "scalped_text" TEXT;

ALTER TABLE "item_now" ADD COLUMN     "mass" DECIMAL,
ADD COLUMN     "party" TEXT;

CREATE TABLE "receipt" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "custody_event_id" UUID NOT NULL,
    "container_kind" TEXT,
    "container_count" INTEGER,
    "sampled_by" TEXT,
    "sampled_where" TEXT,
    "sampled_how" TEXT,
    "safety_sheet" TEXT,
    "safety_sheet_name" TEXT,
    "made_on" DATE,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "receipt_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "receipt_container" (
    "lab_id" UUID NOT NULL,
    "receipt_id" UUID NOT NULL,
    "n" SMALLINT NOT NULL,
    "amount_text" TEXT NOT NULL,
    "amount" DECIMAL NOT NULL,
    "unit" TEXT NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "receipt_container_pkey" PRIMARY KEY ("lab_id","receipt_id","n")
);

CREATE INDEX "receipt_lab_id_item_id_idx" ON "receipt"("lab_id", "item_id");
CREATE UNIQUE INDEX "receipt_lab_id_custody_event_id_key" ON "receipt"("lab_id", "custody_event_id");

ALTER TABLE "receipt" ADD CONSTRAINT "receipt_lab_id_item_id_fkey" FOREIGN KEY ("lab_id", "item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "receipt" ADD CONSTRAINT "receipt_lab_id_custody_event_id_fkey" FOREIGN KEY ("lab_id", "custody_event_id") REFERENCES "custody_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "receipt" ADD CONSTRAINT "receipt_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "receipt_container" ADD CONSTRAINT "receipt_container_lab_id_receipt_id_fkey" FOREIGN KEY ("lab_id", "receipt_id") REFERENCES "receipt"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- A value never stands without the text it was typed as, and is a number.
alter table custody_event add constraint custody_event_temperature_typed check (temperature_text is null or temperature is not null);
alter table custody_event add constraint custody_event_loss_typed check ((loss is null) = (loss_text is null));
alter table custody_event add constraint custody_event_mass_there check (mass >= 0 and mass < 'Infinity');
alter table custody_event add constraint custody_event_loss_there check (loss >= 0 and loss < 'Infinity');
alter table item add constraint item_scalped_typed check ((scalped is null) = (scalped_text is null));
alter table item_now add constraint item_now_mass_there check (mass >= 0 and mass < 'Infinity');
-- Exactly one has it: a person, a place or a party outside; an offer names the party beside who still has it.
alter table item_now add constraint item_now_one_custodian check (num_nonnulls(custodian_id, place_id) + (status in ('sent', 'returned'))::int = (status <> 'disposed')::int and (party is not null) = (status in ('offered', 'sent', 'returned')));
alter table receipt add constraint receipt_safety_sheet_word check (safety_sheet in ('on-file', 'missing', 'not-needed'));
alter table receipt add constraint receipt_container_count_positive check (container_count > 0);
alter table receipt_container add constraint receipt_container_amount_positive check (amount > 0 and amount < 'Infinity');

-- The columns added here; the application still cannot set written_at.
grant insert (loss, loss_text, mass_text, offset_ms, sent_at, signed_for, temperature_text, time_note) on custody_event to curebook_app;
grant insert (fraction, scalped, scalped_text) on item to curebook_app;
select guard_append_only('receipt');
select guard_append_only('receipt_container');
select guard_staff_only('receipt');
select guard_staff_only('receipt_container');
