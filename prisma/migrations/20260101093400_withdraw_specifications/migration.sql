-- A specification that may no longer be chosen: its newest version is withdrawn once, with the reason.
CREATE TABLE "specification_withdrawal" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "specification_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "specification_withdrawal_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE UNIQUE INDEX "specification_withdrawal_lab_id_specification_id_key" ON "specification_withdrawal"("lab_id", "specification_id");

ALTER TABLE "specification_withdrawal" ADD CONSTRAINT "specification_withdrawal_lab_id_specification_id_fkey" FOREIGN KEY ("lab_id", "specification_id") REFERENCES "specification"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "specification_withdrawal" ADD CONSTRAINT "specification_withdrawal_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

select guard_append_only('specification_withdrawal');
select guard_staff_only('specification_withdrawal');

-- Nothing follows what is withdrawn, and what was followed is no longer there to withdraw.
create function guard_specification_line() returns trigger language plpgsql set search_path = pg_catalog, public as $$
begin
  if tg_table_name = 'specification' then
    if exists (select from public.specification_withdrawal w where w.lab_id = new.lab_id and w.specification_id = new.supersedes_id) then
      raise exception 'A withdrawn specification has no further version' using errcode = 'CB002';
    end if;
  elsif exists (select from public.specification s where s.lab_id = new.lab_id and s.supersedes_id = new.specification_id) then
    raise exception 'Only the newest version of a specification is withdrawn' using errcode = 'CB002';
  end if;
  return new;
end
$$;
revoke execute on function guard_specification_line() from public;
create trigger specification_follows_what_stands before insert on specification for each row when (new.supersedes_id is not null)
  execute function guard_specification_line();
create trigger specification_withdrawal_of_newest before insert on specification_withdrawal for each row
  execute function guard_specification_line();
