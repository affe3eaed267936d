-- What an oven or bath held, by hand or posted with the instrument's own key; and the times out of limits that it shows.
CREATE TABLE "instrument_key" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "token_hash" BYTEA,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "instrument_key_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "condition_value" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "observed_at" TIMESTAMPTZ(3) NOT NULL,
    "typed" TEXT NOT NULL,
    "value" DECIMAL NOT NULL,
    "unit" TEXT NOT NULL,
    "key_id" UUID,
    "by_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "condition_value_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "condition_excursion" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "deviation_id" UUID NOT NULL,
    "low" DECIMAL NOT NULL,
    "high" DECIMAL NOT NULL,
    "from_at" TIMESTAMPTZ(3) NOT NULL,
    "until_at" TIMESTAMPTZ(3) NOT NULL,
    "peak" TEXT NOT NULL,
    "ended" BOOLEAN NOT NULL,
    "text" TEXT NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "condition_excursion_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE UNIQUE INDEX "instrument_key_lab_id_supersedes_id_key" ON "instrument_key"("lab_id", "supersedes_id");
CREATE INDEX "instrument_key_lab_id_instrument_id_idx" ON "instrument_key"("lab_id", "instrument_id");
CREATE INDEX "instrument_key_token_hash_idx" ON "instrument_key"("token_hash");
CREATE INDEX "condition_value_lab_id_instrument_id_observed_at_idx" ON "condition_value"("lab_id", "instrument_id", "observed_at");
CREATE UNIQUE INDEX "condition_excursion_lab_id_supersedes_id_key" ON "condition_excursion"("lab_id", "supersedes_id");
CREATE INDEX "condition_excursion_lab_id_deviation_id_idx" ON "condition_excursion"("lab_id", "deviation_id");

ALTER TABLE "instrument_key" ADD CONSTRAINT "instrument_key_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_key" ADD CONSTRAINT "instrument_key_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "instrument_key"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_key" ADD CONSTRAINT "instrument_key_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "condition_value" ADD CONSTRAINT "condition_value_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "condition_value" ADD CONSTRAINT "condition_value_lab_id_key_id_fkey" FOREIGN KEY ("lab_id", "key_id") REFERENCES "instrument_key"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "condition_value" ADD CONSTRAINT "condition_value_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "condition_excursion" ADD CONSTRAINT "condition_excursion_lab_id_deviation_id_fkey" FOREIGN KEY ("lab_id", "deviation_id") REFERENCES "deviation"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "condition_excursion" ADD CONSTRAINT "condition_excursion_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "condition_excursion"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table instrument_key add constraint instrument_key_hash_length check (token_hash is null or octet_length(token_hash) = 32);
alter table instrument_key add constraint instrument_key_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table condition_value add constraint condition_value_by_one check (num_nonnulls(key_id, by_id) = 1);
alter table condition_value add constraint condition_value_value_finite check (value not in ('NaN', 'Infinity', '-Infinity'));
alter table condition_excursion add constraint condition_excursion_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table condition_excursion add constraint condition_excursion_in_order check (from_at <= until_at);
create trigger instrument_key_supersedes_its_own before insert on instrument_key for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('instrument_id');
create trigger condition_excursion_supersedes_its_own before insert on condition_excursion for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('deviation_id');

select guard_append_only('instrument_key');
select guard_staff_only('instrument_key');
select guard_append_only('condition_value');
select guard_staff_only('condition_value');
select guard_append_only('condition_excursion');
select guard_staff_only('condition_excursion');

-- The instrument behind a key that stands, of whatever laboratory: whoever posts with it is nobody's session.
create function instrument_by_key(token_hash bytea)
returns table (lab_id uuid, instrument_id uuid, key_id uuid)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select k.lab_id, k.instrument_id, k.id from public.instrument_key k
  where k.token_hash = instrument_by_key.token_hash
    and not exists (select from public.instrument_key c where c.lab_id = k.lab_id and c.supersedes_id = k.id)
$$;
revoke execute on function instrument_by_key(bytea) from public;
grant execute on function instrument_by_key(bytea) to curebook_app;
