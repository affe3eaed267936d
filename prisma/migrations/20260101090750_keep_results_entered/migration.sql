-- A result that no method here computes: by which method, by whom and with what it was observed. Nulls in every row before.
ALTER TABLE "result" ADD COLUMN     "at_content" TEXT,
ADD COLUMN     "instrument_name" TEXT,
ADD COLUMN     "made_by_stated" BOOLEAN,
ADD COLUMN     "method_edition" TEXT,
ADD COLUMN     "method_name" TEXT,
ADD COLUMN     "observed_by" TEXT,
ADD COLUMN     "remark" TEXT;

-- Nothing computed carries them, and another laboratory's result names the laboratory.
alter table result add constraint result_entered_facts check (made_by <> 'computed' or num_nonnulls(at_content, instrument_name, made_by_stated, method_edition, method_name, observed_by, remark) = 0);
alter table result add constraint result_outside_named check (made_by <> 'outside' or laboratory_name is not null);
-- guard_append_only granted the columns of its day.
grant insert (at_content, instrument_name, made_by_stated, method_edition, method_name, observed_by, remark) on result to curebook_app;
