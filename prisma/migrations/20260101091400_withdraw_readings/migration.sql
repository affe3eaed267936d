-- A reading taken back right after it was entered: it stays, and its slot is open again until the next one stands in it.
CREATE TABLE "reading_withdrawal" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reading_id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "event_at" TIMESTAMPTZ(3) NOT NULL,
    "sent_at" TIMESTAMPTZ(3) NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "offset_ms" BIGINT NOT NULL,
    "request_dig" BYTEA NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "reading_withdrawal_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE INDEX "reading_withdrawal_lab_id_test_id_idx" ON "reading_withdrawal"("lab_id", "test_id");

CREATE UNIQUE INDEX "reading_withdrawal_lab_id_reading_id_key" ON "reading_withdrawal"("lab_id", "reading_id");

ALTER TABLE "reading_withdrawal" ADD CONSTRAINT "reading_withdrawal_lab_id_reading_id_fkey" FOREIGN KEY ("lab_id", "reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "reading_withdrawal" ADD CONSTRAINT "reading_withdrawal_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "reading_withdrawal" ADD CONSTRAINT "reading_withdrawal_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- Only what stands is withdrawn, and under its own test, whose lock keeps a correction and a withdrawal apart.
create function guard_withdrawal() returns trigger language plpgsql set search_path = pg_catalog, public as $$
begin
  if not exists (select from public.reading r where r.lab_id = new.lab_id and r.id = new.reading_id and r.test_id = new.test_id) then
    raise exception 'A withdrawal names another test than its reading' using errcode = 'CB002';
  end if;
  if exists (select from public.reading c where c.lab_id = new.lab_id and c.supersedes_id = new.reading_id) then
    raise exception 'A reading that was corrected is not withdrawn' using errcode = 'CB002';
  end if;
  return new;
end
$$;
create trigger reading_withdrawal_of_what_stands before insert on reading_withdrawal for each row execute function guard_withdrawal();

select guard_append_only('reading_withdrawal');
select guard_staff_only('reading_withdrawal');
