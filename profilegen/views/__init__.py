"""Pictures of a job as marks on paper."""
