-- A report as it would be issued: its file is kept, and what is issued is that file. An issued report names its preview.
CREATE TABLE "report_preview" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "signed_content_id" UUID NOT NULL,
    "number" TEXT NOT NULL,
    "amendment" INTEGER NOT NULL,
    "reason" TEXT,
    "renderer" TEXT NOT NULL,
    "basis" BYTEA NOT NULL,
    "pdf" BYTEA NOT NULL,
    "pdf_sha256" BYTEA NOT NULL,
    "public_token_hash" BYTEA NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "report_preview_pkey" PRIMARY KEY ("lab_id","id")
);

ALTER TABLE "report" ADD COLUMN "preview_id" UUID;

CREATE INDEX "report_preview_lab_id_design_revision_id_idx" ON "report_preview"("lab_id", "design_revision_id");
CREATE UNIQUE INDEX "report_lab_id_preview_id_key" ON "report"("lab_id", "preview_id");

ALTER TABLE "report_preview" ADD CONSTRAINT "report_preview_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "report_preview" ADD CONSTRAINT "report_preview_lab_id_signed_content_id_fkey" FOREIGN KEY ("lab_id", "signed_content_id") REFERENCES "signed_content"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "report_preview" ADD CONSTRAINT "report_preview_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_preview_id_fkey" FOREIGN KEY ("lab_id", "preview_id") REFERENCES "report_preview"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table report_preview add constraint report_preview_basis_length check (octet_length(basis) = 32);
alter table report_preview add constraint report_preview_pdf_digest check (pdf_sha256 = sha256(pdf));
alter table report_preview add constraint report_preview_public_token_hash_length check (octet_length(public_token_hash) = 32);

-- Nothing but the file that was shown can be issued from a preview: the same bytes, number and content.
create function guard_previewed_report() returns trigger language plpgsql set search_path = pg_catalog, public as $$
begin
  if not exists (select from public.report_preview p where p.lab_id = new.lab_id and p.id = new.preview_id and p.pdf_sha256 = new.pdf_sha256
      and p.public_token_hash = new.public_token_hash and p.signed_content_id = new.signed_content_id
      and p.design_revision_id = new.design_revision_id and p.number = new.number and p.amendment = new.amendment) then
    raise exception 'A report carries another file than its preview' using errcode = 'CB003';
  end if;
  return new;
end
$$;
create trigger report_of_its_preview before insert on report for each row when (new.preview_id is not null)
  execute function guard_previewed_report();

select guard_append_only('report_preview');
select guard_staff_only('report_preview');

-- Rights on a table that stands already are by column.
grant insert (preview_id) on report to curebook_app;
