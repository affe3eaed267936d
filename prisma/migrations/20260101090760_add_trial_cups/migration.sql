-- Trial-mix cups, stirred by hand, and the cup that is chosen as base of the series.
CREATE TABLE "trial_cup" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "emulsion_percent_text" TEXT NOT NULL,
    "emulsion_percent" DECIMAL NOT NULL,
    "water_percent_text" TEXT NOT NULL,
    "water_percent" DECIMAL NOT NULL,
    "additive_percent_text" TEXT NOT NULL,
    "additive_percent" DECIMAL NOT NULL,
    "filler_percent_text" TEXT NOT NULL,
    "filler_percent" DECIMAL NOT NULL,
    "temperature_text" TEXT,
    "temperature" DECIMAL,
    "mix_time_text" TEXT,
    "mix_time" DECIMAL,
    "mix_time_from" TEXT,
    "coated_text" TEXT,
    "coated" DECIMAL,
    "clear_water_text" TEXT,
    "clear_water" DECIMAL,
    "started_at" TIMESTAMPTZ(3),
    "remark" TEXT NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "trial_cup_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "trial_base" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "trial_cup_id" UUID NOT NULL,
    "contents" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "trial_base_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE INDEX "trial_cup_lab_id_design_revision_id_idx" ON "trial_cup"("lab_id", "design_revision_id");

CREATE UNIQUE INDEX "trial_cup_lab_id_supersedes_id_key" ON "trial_cup"("lab_id", "supersedes_id");

CREATE INDEX "trial_base_lab_id_design_revision_id_idx" ON "trial_base"("lab_id", "design_revision_id");

ALTER TABLE "trial_cup" ADD CONSTRAINT "trial_cup_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "trial_cup" ADD CONSTRAINT "trial_cup_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "trial_cup"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "trial_cup" ADD CONSTRAINT "trial_cup_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "trial_base" ADD CONSTRAINT "trial_base_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "trial_base" ADD CONSTRAINT "trial_base_lab_id_trial_cup_id_fkey" FOREIGN KEY ("lab_id", "trial_cup_id") REFERENCES "trial_cup"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "trial_base" ADD CONSTRAINT "trial_base_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table trial_cup add constraint trial_cup_number_from_one check (number >= 1);
alter table trial_cup add constraint trial_cup_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table trial_cup add constraint trial_cup_mix_time_from_word check (mix_time_from in ('stopwatch', 'typed') and (mix_time is null) = (mix_time_from is null));
-- What was read stands as typed and as a number, or not at all.
alter table trial_cup add constraint trial_cup_typed_pairs check ((temperature is null) = (temperature_text is null) and (mix_time is null) = (mix_time_text is null)
  and (coated is null) = (coated_text is null) and (clear_water is null) = (clear_water_text is null));
alter table trial_cup add constraint trial_cup_finite check (emulsion_percent < 'Infinity' and water_percent < 'Infinity' and additive_percent < 'Infinity'
  and filler_percent < 'Infinity' and temperature not in ('NaN', 'Infinity', '-Infinity') and mix_time not in ('NaN', 'Infinity', '-Infinity')
  and coated not in ('NaN', 'Infinity', '-Infinity') and clear_water not in ('NaN', 'Infinity', '-Infinity'));
create unique index trial_cup_first_of_number on trial_cup (lab_id, design_revision_id, number) where supersedes_id is null;
create trigger trial_cup_supersedes_its_own before insert on trial_cup for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('design_revision_id', 'number');
select guard_append_only('trial_cup'), guard_append_only('trial_base');
select guard_staff_only('trial_cup'), guard_staff_only('trial_base');
