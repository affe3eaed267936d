-- Wall screens: a browser on the wall that may read one thing. What a manager made, the codes that pair it, who came by one of
-- them, and its end are rows of their own; when it last looked is the one that changes.
CREATE TABLE "wall_screen" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "wall_screen_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "wall_code" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "screen_id" UUID NOT NULL,
    "code_hash" BYTEA NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "wall_code_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "wall_pairing" (
    "lab_id" UUID NOT NULL,
    "code_id" UUID NOT NULL,
    "key_hash" BYTEA NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "wall_pairing_pkey" PRIMARY KEY ("lab_id","code_id")
);

CREATE TABLE "wall_end" (
    "lab_id" UUID NOT NULL,
    "screen_id" UUID NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "wall_end_pkey" PRIMARY KEY ("lab_id","screen_id")
);

CREATE TABLE "wall_seen" (
    "lab_id" UUID NOT NULL,
    "screen_id" UUID NOT NULL,
    "seen_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "wall_seen_pkey" PRIMARY KEY ("lab_id","screen_id")
);

CREATE INDEX "wall_code_lab_id_screen_id_at_idx" ON "wall_code"("lab_id", "screen_id", "at");
CREATE UNIQUE INDEX "wall_code_code_hash_key" ON "wall_code"("code_hash");
CREATE UNIQUE INDEX "wall_pairing_key_hash_key" ON "wall_pairing"("key_hash");

ALTER TABLE "wall_screen" ADD CONSTRAINT "wall_screen_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "wall_code" ADD CONSTRAINT "wall_code_lab_id_screen_id_fkey" FOREIGN KEY ("lab_id", "screen_id") REFERENCES "wall_screen"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "wall_code" ADD CONSTRAINT "wall_code_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "wall_pairing" ADD CONSTRAINT "wall_pairing_lab_id_code_id_fkey" FOREIGN KEY ("lab_id", "code_id") REFERENCES "wall_code"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "wall_end" ADD CONSTRAINT "wall_end_lab_id_screen_id_fkey" FOREIGN KEY ("lab_id", "screen_id") REFERENCES "wall_screen"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "wall_end" ADD CONSTRAINT "wall_end_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "wall_seen" ADD CONSTRAINT "wall_seen_lab_id_screen_id_fkey" FOREIGN KEY ("lab_id", "screen_id") REFERENCES "wall_screen"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- How people stand on the walls: visitors read them.
ALTER TABLE "laboratory" ADD COLUMN "wall_names" TEXT NOT NULL DEFAULT 'initials';
-- Who is at work is asked of the last hours' records, every half minute for each wall screen.
CREATE INDEX "step_event_lab_id_at_idx" ON "step_event"("lab_id", "at");
CREATE INDEX "reading_lab_id_at_idx" ON "reading"("lab_id", "at");

alter table laboratory add constraint laboratory_wall_names_word check (wall_names in ('full', 'initials', 'none'));
alter table wall_code add constraint wall_code_code_hash_length check (octet_length(code_hash) = 32);
alter table wall_pairing add constraint wall_pairing_key_hash_length check (octet_length(key_hash) = 32);

select guard_append_only('wall_screen');
select guard_staff_only('wall_screen');
select guard_append_only('wall_code');
select guard_staff_only('wall_code');
select guard_append_only('wall_pairing');
select guard_staff_only('wall_pairing');
select guard_append_only('wall_end');
select guard_staff_only('wall_end');
grant select, insert, update on wall_seen to curebook_app;
select guard_staff_only('wall_seen');

-- The screen behind a pairing code, of whatever laboratory: whoever types it is nobody's session. The caller judges it.
create function wall_screen_by_code(code_hash bytea)
returns table (lab_id uuid, screen_id uuid, code_id uuid)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select c.lab_id, c.screen_id, c.id from public.wall_code c where c.code_hash = wall_screen_by_code.code_hash
$$;

-- The screen behind a browser's key. It holds while the screen is not ended and no browser was paired with it since.
create function wall_screen_by_key(key_hash bytea)
returns table (lab_id uuid, screen_id uuid, name text, holds boolean)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select s.lab_id, s.id, s.name,
    not exists (select from public.wall_end e where e.lab_id = s.lab_id and e.screen_id = s.id)
    and not exists (
      select from public.wall_pairing later join public.wall_code lc on lc.lab_id = later.lab_id and lc.id = later.code_id
      where lc.lab_id = s.lab_id and lc.screen_id = s.id and later.written_at > p.written_at)
  from public.wall_pairing p
  join public.wall_code c on c.lab_id = p.lab_id and c.id = p.code_id
  join public.wall_screen s on s.lab_id = c.lab_id and s.id = c.screen_id
  where p.key_hash = wall_screen_by_key.key_hash
$$;
revoke execute on function wall_screen_by_code(bytea), wall_screen_by_key(bytea) from public;
grant execute on function wall_screen_by_code(bytea), wall_screen_by_key(bytea) to curebook_app;
