"""What an editor gets to read: verdict files, letters, lists, exports."""
